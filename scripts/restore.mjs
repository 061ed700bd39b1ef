/** `npm run restore -- FILE`: puts a backup in the place of the database of the service. */
import { runBuiltBesideService } from './run-program.mjs'

runBuiltBesideService('restore')
