/** When the room of a turn is ready by a schedule, and how early it can be at best. */
import type { Instant } from '../../domain/instant.ts'
import { TICK_MS } from '../decide/plan/tick-grid.ts'
import { boundUntilTick, lowerBoundTicks, type Schedule, type TurnInstance } from '../turn/index.ts'
import type { InstanceAround } from './instance-around.ts'
import type { Search } from './search.ts'

export const instantOf = ({ built }: InstanceAround, tick: number): Instant =>
  (built.originAt + tick * TICK_MS) as Instant

/** Turns of the instance that are this turn: that of the room, and those of its milestones. */
export const turnsOf = ({ part }: InstanceAround): number[] => [
  part.turn,
  ...part.milestones.map(({ turn }) => turn),
]

/** What was asked for earlier is part of the work: the last of all. */
export const readyTickOf = (around: InstanceAround, schedule: Schedule): number =>
  Math.max(...turnsOf(around).map((turn) => schedule.readyTicks[turn]!))

/**
 * No plan of the instance has the room ready earlier; null: no plan is possible, whatever of it cannot be done.
 * @param instance  the turn with other lanes, or other times
 */
export function boundTickOf(around: InstanceAround, instance: TurnInstance): number | null {
  const bounds = instance.turns.map((_, turn) => lowerBoundTicks(instance, turn).readyTick)
  if (bounds.includes(null)) return null
  return Math.max(...turnsOf(around).map((turn) => bounds[turn]!))
}

/** Whether no plan of the instance has the room ready by then. */
export function isExcludedBy(around: InstanceAround, instance: TurnInstance, byTick: number): boolean {
  return turnsOf(around).some((turn) => {
    const tick = boundUntilTick(instance, turn, byTick + 1)
    return tick === null || tick > byTick
  })
}

/** All that was asked for before doors is reached by then. */
export const reachesMilestones = ({ built, part }: InstanceAround, schedule: Schedule): boolean =>
  part.milestones.every(({ turn }) => schedule.readyTicks[turn]! <= built.instance.turns[turn]!.dueTick)

/** As soon as a plan is found for; null: none is. */
export function readyAtIn(around: InstanceAround, search: Search): Instant | null {
  const { schedule } = search.find(around.built.instance)
  return schedule && instantOf(around, readyTickOf(around, schedule))
}
