/** `npm run bench:bare -- FILE`: the time of a search over that of bare serial passes. */
import { runSource } from './run-program.mjs'

runSource('bench/rcpsp/over-bare.ts')
