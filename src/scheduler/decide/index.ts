/** The decision and what goes with it. */
export { decide } from './decide.ts'
export { answeredReason, turnBrief } from './decision-from.ts'
export { brokenInvariants } from './invariants.ts'
export { type OperationProblem, operationProblems } from './operation-problems.ts'
export { isOverridable } from './overridable.ts'
export { planFaults } from './plan-faults.ts'
export { reasonMessage } from './reason-message.ts'
export { windowOf } from './window-of.ts'
