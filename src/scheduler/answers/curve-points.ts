/** How soon the turn is ready with one pair of hands more each time; never later, by construction. */
import type { Schedule } from '../turn/index.ts'
import { type CrewMember, instanceWithHands, lanesKept } from './hands-in-order.ts'
import type { InstanceAround } from './instance-around.ts'
import { boundTickOf, reachesMilestones, readyTickOf } from './ready.ts'
import type { Search } from './search.ts'

export interface PointFound {
  readonly hands: number
  /** null: no plan is known. */
  readonly readyTick: number | null
  /** The soonest by a plan that reaches what was asked for earlier in time; null: none is known. */
  readonly onTimeTick: number | null
  /** No plan of these hands is ready earlier; null: none is possible. */
  readonly boundTick: number | null
}

/**
 * A plan of fewer hands is one of more: where no better one is found it is carried over. So is the stored plan, as soon
 * as all who work in it are there. Where what is carried over is proven to be best, nothing is searched.
 * @param standing  the stored plan, without faults; null: none
 * @param from      0 or more
 * @returns a point for each number from `from` to `to`
 */
export function curvePoints(
  around: InstanceAround,
  standing: Schedule | null,
  crew: readonly CrewMember[],
  search: Search,
  { from, to }: { readonly from: number; readonly to: number },
): PointFound[] {
  const atWork = new Set(standing?.activities.flatMap(({ lanes }) => lanes))
  const points: PointFound[] = []
  let readyTick: number | null = null
  let onTimeTick: number | null = null
  const take = (schedule: Schedule) => {
    const tick = readyTickOf(around, schedule)
    readyTick = Math.min(readyTick ?? tick, tick)
    if (reachesMilestones(around, schedule)) onTimeTick = Math.min(onTimeTick ?? tick, tick)
  }
  for (let hands = from; hands <= to; hands += 1) {
    const instance = instanceWithHands(around, crew, hands)
    const boundTick = boundTickOf(around, instance)
    const kept = lanesKept(around, crew, hands)
    if (standing && [...atWork].every((lane) => kept.has(lane))) take(standing)
    const isSettled = boundTick === null || (onTimeTick !== null && onTimeTick === boundTick)
    if (!isSettled) {
      const { schedule } = search.find(instance)
      if (schedule) take(schedule)
    }
    points.push({ hands, readyTick, onTimeTick, boundTick })
  }
  return points
}
