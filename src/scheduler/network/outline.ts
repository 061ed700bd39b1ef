/** What every source of tasks looks at: the input, the zones of the floor, how coarsely work is cut, what moves. */
import type { Reckoning } from '../../domain/reckoning.ts'
import type { Task, TaskKey } from '../../domain/task.ts'
import type { DeviceSwitch } from './device-switches.ts'
import type { LotSize } from './lots.ts'
import type { NetworkInput } from './network-input.ts'
import type { PieceJobs } from './piece-jobs.ts'
import type { InFront } from './pieces-in-front.ts'
import type { Zone } from './zones.ts'

export interface TurnOutline {
  readonly input: NetworkInput
  readonly zones: readonly Zone[]
  readonly lotSize: LotSize
  readonly jobs: PieceJobs
  /** What stands in the way in the stores, by store, from the door. */
  readonly inFront: readonly InFront[]
  readonly deviceSwitches: readonly DeviceSwitch[]
  /** The wanted layout stands and may stay: nothing is struck or set, soiled cloths and settings apart. */
  readonly staysAsItIs: boolean
  /** Where explanations are put; null: nobody asked for them. */
  readonly reckonings: Map<TaskKey, Reckoning> | null
}

/** Keys of tasks for each zone, by index: those that must be done before, or those that are done last. */
export type KeysByZone = readonly (readonly Task['key'][])[]

/** Tasks, each after those it needs, and the last ones in each zone. */
export interface ZonedTasks {
  readonly tasks: readonly Task[]
  readonly endsByZone: KeysByZone
}

/** The tasks of one step in one zone, all after `before`; none where there is nothing to do. */
export type ZoneStep = (zone: Zone, zoneIndex: number, before: readonly TaskKey[]) => readonly Task[]

/**
 * In each zone the steps follow each other; tasks of one step may go on side by side, and so may zones. A zone without
 * any tasks ends with its entries.
 */
export function chainedInZones(
  zones: readonly Zone[],
  entriesByZone: KeysByZone,
  steps: readonly ZoneStep[],
): ZonedTasks {
  const tasks: Task[] = []
  const endsByZone = zones.map((zone, zoneIndex) => {
    let before = entriesByZone[zoneIndex]!
    for (const step of steps) {
      const made = step(zone, zoneIndex, before)
      if (made.length === 0) continue
      tasks.push(...made)
      before = made.map((task) => task.key)
    }
    return before
  })
  return { tasks, endsByZone }
}

/** How a zone is called on the list: a room of one zone is called by its name. */
export function zoneName({ input, zones }: Pick<TurnOutline, 'input' | 'zones'>, zone: Zone): string {
  if (zones.length === 1) return input.room.name
  return zone.name === null ? `zone ${zone.number}` : `zone ${zone.number} (${zone.name})`
}

/** Where a zone is, for somebody who is not in the room yet. */
export function zonePlace(outline: Pick<TurnOutline, 'input' | 'zones'>, zone: Zone): string {
  const { room } = outline.input
  return outline.zones.length === 1 ? room.name : `${room.name}, ${zoneName(outline, zone)}`
}
