/** `npm run plan -- FILE.json`: plans one instance and prints the plan. */
import { runBuilt } from './run-program.mjs'

runBuilt('plan')
