/**
 * An instance laid out once for the many schedules made from it: flat integer arrays instead of nested lists, the free
 * time of each lane, successors, an order of the work. Lists of lists are stored as one array with the first index of
 * each row (`rowFirst[i]` until `rowFirst[i + 1]`).
 */

import { FAR_TICK } from './far-tick.ts'
import type { Lane, TurnInstance } from './instance.ts'
import { type PreparedActivities, preparedActivities } from './prepared-activities.ts'
import { type PreparedBudgets, preparedBudgets } from './prepared-budgets.ts'
import { type PreparedConsumables, preparedConsumables } from './prepared-consumables.ts'

export { inverseOf } from './prepared-activities.ts'

/** Time a lane is on duty and not held, with what holds it before and after: walking to and from there counts. */
export interface LaneGap {
  readonly from: number
  readonly to: number
  /** End and place of what the lane does before; -FAR_TICK when there is nothing. */
  readonly previousEnd: number
  readonly previousPlace: number
  /** Start and place of what it does next; FAR_TICK when there is nothing. */
  readonly nextStart: number
  readonly nextPlace: number
}

export interface CapacityStep {
  readonly fromTick: number
  readonly amount: number
}

export interface PreparedInstance extends PreparedActivities, PreparedBudgets, PreparedConsumables {
  readonly turnCount: number
  readonly laneCount: number
  readonly resourceCount: number
  readonly placeCount: number
  readonly horizonTick: number
  readonly laneMask: Int32Array
  readonly laneSkillCount: Int32Array
  readonly gaps: readonly (readonly LaneGap[])[]
  /** Steps of each resource, the first at -FAR_TICK. */
  readonly capacity: readonly (readonly CapacityStep[])[]
  /** `walk[a * placeCount + b]` */
  readonly walk: Int32Array
  readonly releaseTicks: Int32Array
  readonly dueTicks: readonly number[]
  readonly weights: readonly number[]
}

/** The one asked about last: it is asked about several times, one after the other. An instance is never changed in place. */
let last: { readonly instance: TurnInstance; readonly problem: PreparedInstance } | null = null

/** @param instance without problems (`instanceProblems` gives an empty list) */
export function prepared(instance: TurnInstance): PreparedInstance {
  if (last?.instance !== instance) last = { instance, problem: laidOut(instance) }
  return last.problem
}

function laidOut(instance: TurnInstance): PreparedInstance {
  const { activities, turns, lanes, resources, walkTicks, horizonTick } = instance
  return {
    turnCount: turns.length,
    laneCount: lanes.length,
    resourceCount: resources.length,
    placeCount: walkTicks.length,
    horizonTick,
    laneMask: new Int32Array(lanes.map((lane) => lane.skillMask)),
    laneSkillCount: new Int32Array(lanes.map((lane) => bitCount(lane.skillMask))),
    gaps: lanes.map((lane) => gapsOf(lane, horizonTick)),
    capacity: resources.map((resource) => [
      { fromTick: -FAR_TICK, amount: 0 },
      ...resource.capacity.map((step) => ({ fromTick: nearTick(step.fromTick), amount: step.amount })),
    ]),
    walk: new Int32Array(walkTicks.flat()),
    releaseTicks: new Int32Array(turns.map((turn) => nearTick(turn.releaseTick))),
    dueTicks: turns.map((turn) => turn.dueTick),
    weights: turns.map((turn) => turn.weight),
    // Last: spread in front, everything behind it is added one by one, which takes several times as long.
    ...preparedActivities(activities),
    ...preparedBudgets(instance),
    ...preparedConsumables(instance),
  }
}

function gapsOf(lane: Lane, horizonTick: number): LaneGap[] {
  const duty: { from: number; to: number }[] = []
  for (const span of lane.available) {
    const last = duty.at(-1)
    if (last && span.from === last.to) last.to = span.to
    else duty.push({ from: span.from, to: span.to })
  }
  const gaps: LaneGap[] = []
  for (let next = 0; next <= lane.busy.length; next++) {
    const before = lane.busy[next - 1]
    const after = lane.busy[next]
    const previousEnd = before ? nearTick(before.to) : -FAR_TICK
    const nextStart = after ? nearTick(after.from) : FAR_TICK
    for (const span of duty) {
      const from = Math.max(0, previousEnd, span.from)
      const to = Math.min(horizonTick, nextStart, span.to)
      if (from >= to) continue
      const previousPlace = before?.place ?? 0
      gaps.push({ from, to, previousEnd, previousPlace, nextStart, nextPlace: after?.place ?? 0 })
    }
  }
  return gaps
}

/** Ticks far outside of the horizon are as good as any other there; kept small, sums stay whole numbers of 32 bits. */
const nearTick = (tick: number): number => Math.max(-(FAR_TICK >> 1), Math.min(FAR_TICK >> 1, tick))

export function bitCount(mask: number): number {
  let count = 0
  for (let rest = mask; rest !== 0; rest &= rest - 1) count += 1
  return count
}
