/** From what stands and what is wanted to the list of tasks. */
export { DEFAULT_RATES } from './default-rates.ts'
export { reachableStates } from './equipment-path.ts'
export { homeSetting, levelProblem } from './equipment-setting.ts'
export type { NetworkInput, StandingPieces } from './network-input.ts'
export { StateUnreachable } from './state-unreachable.ts'
export { taskNetwork } from './task-network.ts'
