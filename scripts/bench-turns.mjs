/** `npm run bench:turns`: plans turns drawn at random, as a decision does, at leisure, and for 1 to 12 hands. */
import { runSource } from './run-program.mjs'

runSource('bench/turns/run.ts')
