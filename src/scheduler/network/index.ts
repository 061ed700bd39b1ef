/** From what stands and what is wanted to the list of tasks. */
export { DEFAULT_RATES } from './default-rates.ts'
export { effectiveHands } from './effective-hands.ts'
export { equipmentPath, reachableStates } from './equipment-path.ts'
export { homeSetting, levelProblem, sameSetting } from './equipment-setting.ts'
export type { NetworkInput, StandingPieces } from './network-input.ts'
export type { Rates } from './rates.ts'
export { StateUnreachable } from './state-unreachable.ts'
export { taskNetwork } from './task-network.ts'
