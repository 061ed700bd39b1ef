/** `npm run backup -- FILE`: copies the database of the service into a file, also while it runs. */
import { runBuiltBesideService } from './run-program.mjs'

runBuiltBesideService('backup')
