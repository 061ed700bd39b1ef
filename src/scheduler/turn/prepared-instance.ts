/**
 * An instance laid out once for the many schedules made from it: flat integer arrays instead of nested lists, the free
 * time of each lane, successors, an order of the work. Lists of lists are stored as one array with the first index of
 * each row (`rowFirst[i]` until `rowFirst[i + 1]`).
 */

import { FAR_TICK } from './far-tick.ts'
import type { Lane, TurnInstance } from './instance.ts'
import { type PreparedBudgets, preparedBudgets } from './prepared-budgets.ts'
import { type PreparedModes, preparedModes } from './prepared-modes.ts'

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

export interface PreparedInstance extends PreparedModes, PreparedBudgets {
  readonly activityCount: number
  readonly turnCount: number
  readonly laneCount: number
  readonly resourceCount: number
  readonly placeCount: number
  readonly horizonTick: number
  readonly turnOf: Int32Array
  readonly placeOf: Int32Array
  /** Activities that start at the release of their turn and nowhere else, by index. */
  readonly pinned: readonly number[]
  /** By activity: 1 if it is one of them. */
  readonly isPinned: Uint8Array
  readonly predecessorFirst: Int32Array
  readonly predecessors: Int32Array
  readonly successorFirst: Int32Array
  readonly successors: Int32Array
  /** Activities, each behind its predecessors; by index where precedence leaves it open. */
  readonly order: Int32Array
  /** Position in `order`. */
  readonly rank: Int32Array
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

/** @param instance without problems (`instanceProblems` gives an empty list) */
export function prepared(instance: TurnInstance): PreparedInstance {
  const { activities, turns, lanes, resources, walkTicks, horizonTick } = instance
  const predecessorLists = activities.map((activity) => [...new Set(activity.after)])
  const successorLists: number[][] = activities.map(() => [])
  for (let activity = 0; activity < activities.length; activity++) {
    for (const predecessor of predecessorLists[activity]!) successorLists[predecessor]!.push(activity)
  }
  const predecessors = inOneRow(predecessorLists)
  const successors = inOneRow(successorLists)
  const order = orderOfWork(predecessorLists, successorLists)
  return {
    activityCount: activities.length,
    turnCount: turns.length,
    laneCount: lanes.length,
    resourceCount: resources.length,
    placeCount: walkTicks.length,
    horizonTick,
    turnOf: new Int32Array(activities.map((activity) => activity.turn)),
    placeOf: new Int32Array(activities.map((activity) => activity.place)),
    pinned: activities.flatMap((activity, index) => (activity.pinned ? [index] : [])),
    isPinned: new Uint8Array(activities.map((activity) => (activity.pinned ? 1 : 0))),
    predecessorFirst: predecessors.first,
    predecessors: predecessors.row,
    successorFirst: successors.first,
    successors: successors.row,
    order,
    rank: inverseOf(order),
    ...preparedModes(activities),
    ...preparedBudgets(instance),
    laneMask: new Int32Array(lanes.map((lane) => lane.skillMask)),
    laneSkillCount: new Int32Array(lanes.map((lane) => bitCount(lane.skillMask))),
    gaps: lanes.map((lane) => gapsOf(lane, horizonTick)),
    capacity: resources.map((resource) => [
      { fromTick: -FAR_TICK, amount: 0 },
      ...resource.capacity.map((step) => ({ fromTick: nearTick(step.fromTick), amount: step.amount })),
    ]),
    walk: inOneRow(walkTicks).row,
    releaseTicks: new Int32Array(turns.map((turn) => nearTick(turn.releaseTick))),
    dueTicks: turns.map((turn) => turn.dueTick),
    weights: turns.map((turn) => turn.weight),
  }
}

function orderOfWork(predecessorLists: readonly number[][], successorLists: readonly number[][]): Int32Array {
  const waitingFor = predecessorLists.map((list) => list.length)
  const order = new Int32Array(predecessorLists.length)
  const isPlaced = new Uint8Array(predecessorLists.length)
  let lowest = 0
  for (let position = 0; position < order.length; position++) {
    while (waitingFor[lowest] !== 0 || isPlaced[lowest] === 1) lowest += 1
    const activity = lowest
    order[position] = activity
    isPlaced[activity] = 1
    for (const successor of successorLists[activity]!) {
      waitingFor[successor]! -= 1
      if (waitingFor[successor] === 0 && successor < lowest) lowest = successor
    }
  }
  return order
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
      const places = { previousPlace: before?.place ?? 0, nextPlace: after?.place ?? 0 }
      gaps.push({ from, to, previousEnd, nextStart, ...places })
    }
  }
  return gaps
}

/** Rows one behind the other, and where each begins, with the end of the last one behind. */
function inOneRow(rows: readonly (readonly number[])[]): { first: Int32Array; row: Int32Array } {
  const first = [0]
  const row: number[] = []
  for (const values of rows) {
    for (const value of values) row.push(value)
    first.push(row.length)
  }
  return { first: new Int32Array(first), row: new Int32Array(row) }
}

/** Where in the order each activity stands. */
export function inverseOf(order: Int32Array): Int32Array {
  const rank = new Int32Array(order.length)
  for (const [position, activity] of order.entries()) rank[activity] = position
  return rank
}

/** Ticks far outside of the horizon are as good as any other there; kept small, sums stay whole numbers of 32 bits. */
const nearTick = (tick: number): number => Math.max(-(FAR_TICK >> 1), Math.min(FAR_TICK >> 1, tick))

export function bitCount(mask: number): number {
  let count = 0
  for (let rest = mask; rest !== 0; rest &= rest - 1) count += 1
  return count
}
