/** The decision and what goes with it. */
export { decide } from './decide.ts'
export { answeredReason, turnBrief } from './decision-from.ts'
export { brokenInvariants } from './invariants.ts'
export { operationProblems } from './operation-problems.ts'
export { isOverridable } from './overridable.ts'
export { planFaults } from './plan-faults.ts'
export { windowOf, windowWithAlternatives } from './window-of.ts'
