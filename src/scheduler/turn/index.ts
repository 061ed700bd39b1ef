/** The solver of turns: whole numbers in, a plan and bounds out. It knows nothing of halls. */
export { asLateAs } from './as-late-as.ts'
export { carriedPlan, isCalmer, readyTicksMostFor } from './carried-plan.ts'
export { type ChainStep, criticalChain } from './critical-chain.ts'
export * from './instance.ts'
export { lowerBoundTicks } from './lower-bound.ts'
export { retimed } from './retimed.ts'
export { SOLVER_VERSION, solve } from './solve.ts'
export { scheduleFaults } from './validate.ts'
