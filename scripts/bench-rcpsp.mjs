/** `npm run bench:rcpsp -- FILE`: plans every instance of a benchmark file. */
import { runSource } from './run-program.mjs'

runSource('bench/rcpsp/run.ts')
