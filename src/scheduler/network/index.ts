/** From what stands and what is wanted to the list of tasks. */
export { DEFAULT_RATE_SOURCES, DEFAULT_RATES, defaultRateSource } from './default-rates.ts'
export { reachableStates } from './equipment-path.ts'
export { homeSetting, levelProblem } from './equipment-setting.ts'
export type { NetworkInput, OutgoingUse, StandingPieces } from './network-input.ts'
export { ratePaths } from './rate-paths.ts'
export { StateUnreachable } from './state-unreachable.ts'
export { type ReckonedNetwork, reckonedNetwork, taskNetwork } from './task-network.ts'
