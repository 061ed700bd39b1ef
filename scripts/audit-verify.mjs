/** `npm run audit:verify -- DATABASE_FILE`: says whether the audit in the file is the chain that was written. */
import { runBuilt } from './run-program.mjs'

runBuilt('audit-verify')
