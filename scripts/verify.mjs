/** `npm run verify -- DATABASE_FILE`: says what in the file is not as it must be. */
import { runBuilt } from './run-program.mjs'

runBuilt('verify')
