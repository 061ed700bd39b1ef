/** What follows from the activities of an instance alone, laid out for the inner loops; remembered by their list. */
import type { Activity } from './instance.ts'
import { type PreparedModes, preparedModes } from './prepared-modes.ts'

export interface PreparedActivities extends PreparedModes {
  readonly activityCount: number
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
}

/** Lists are never changed in place: the same turn is asked about with other hands, and in other weeks. */
const remembered = new WeakMap<readonly Activity[], PreparedActivities>()

export function preparedActivities(activities: readonly Activity[]): PreparedActivities {
  const known = remembered.get(activities)
  if (known) return known
  const made = laidOut(activities)
  remembered.set(activities, made)
  return made
}

function laidOut(activities: readonly Activity[]): PreparedActivities {
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

/** Where in the order each activity stands. */
export function inverseOf(order: Int32Array): Int32Array {
  const rank = new Int32Array(order.length)
  for (const [position, activity] of order.entries()) rank[activity] = position
  return rank
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
