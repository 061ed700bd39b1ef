/** The solver of turns: whole numbers in, a plan and bounds out. It knows nothing of halls. */
export { criticalChain } from './critical-chain.ts'
export * from './instance.ts'
export { lowerBoundTicks } from './lower-bound.ts'
export { SOLVER_VERSION, solve } from './solve.ts'
export { scheduleFaults } from './validate.ts'
