/** What every source of tasks looks at: the input, the strips of the floor, how coarsely work is cut, what moves. */
import type { Task } from '../../domain/task.ts'
import type { DeviceSwitch } from './device-switches.ts'
import type { LotSize } from './lots.ts'
import type { NetworkInput } from './network-input.ts'
import type { PieceMoves } from './piece-moves.ts'
import type { Zone } from './zones.ts'

export interface TurnOutline {
  readonly input: NetworkInput
  readonly zones: readonly Zone[]
  readonly lotSize: LotSize
  readonly pieceMoves: readonly PieceMoves[]
  readonly deviceSwitches: readonly DeviceSwitch[]
  /** The wanted layout stands and may stay: nothing is struck or set. */
  readonly staysAsItIs: boolean
}

/** Keys of tasks for each strip, by index: those that must be done before, or those that are done last. */
export type KeysByZone = readonly (readonly Task['key'][])[]

/** Tasks, each after those it needs, and the last ones in each strip. */
export interface ZonedTasks {
  readonly tasks: readonly Task[]
  readonly endsByZone: KeysByZone
}

/** How a strip is called on the list: a room of one strip is called by its name. */
export function zoneName({ input, zones }: Pick<TurnOutline, 'input' | 'zones'>, zone: Zone): string {
  return zones.length === 1 ? input.room.name : `zone ${zone.number}`
}

/** Where a strip is, for somebody who is not in the room yet. */
export function zonePlace({ input, zones }: Pick<TurnOutline, 'input' | 'zones'>, zone: Zone): string {
  return zones.length === 1 ? input.room.name : `${input.room.name}, zone ${zone.number}`
}
