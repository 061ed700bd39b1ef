/**
 * The work that a turn needs, in arrays of its own: its activities and what they wait for, whatever turn that belongs
 * to. Ticks count from the origin; seen from the far end they count backwards from `spanTicks`, so that what holds of
 * starts holds of ends too and is written once. A `Side` is the work as seen from one end.
 */
import { NEVER } from '../far-tick.ts'
import type { PreparedInstance } from '../prepared-instance.ts'

/** As seen from one end of time: what comes before what, there. Rows of lists as in `PreparedInstance`. */
export interface Side {
  /** Each behind its predecessors. */
  readonly order: Int32Array
  readonly predecessorFirst: Int32Array
  readonly predecessors: Int32Array
  /** Which set of `setMembers` must be over before it: all it waits for, directly or not; -1: nothing or one thing. */
  readonly setOf: Int32Array
  readonly setFirst: Int32Array
  /** Sorted by head, latest first, whenever a set is looked at. The last set is all of the work. */
  readonly setMembers: Int32Array
}

export interface NeededWork {
  readonly count: number
  /** Tick 0 of the sides and of all heads. */
  readonly originTick: number
  readonly spanTicks: number
  /** Activity and mode in the whole instance. */
  readonly activityOf: Int32Array
  readonly modeFirst: Int32Array
  readonly modeOf: Int32Array
  readonly modeTicks: Int32Array
  /** How early each can start, from the origin. */
  readonly heads: Int32Array
  readonly fromStart: Side
  readonly fromEnd: Side
}

/** More activities are left to the bound that is known. */
const ACTIVITIES_MOST = 500
/** More members of sets than this are not worth their memory: then there are no sets. */
const MEMBERS_MOST = 400_000

/**
 * @param earliestStart by activity of the instance (`earliestTicks`)
 * @returns null where something pinned is needed, where something can never be done, or where it is too much
 */
export function neededWork(
  problem: PreparedInstance,
  turn: number,
  earliestStart: Int32Array,
  untilTick: number,
): NeededWork | null {
  const { turnOf, successorFirst, successors, order, isPinned, modeFirst } = problem
  const isNeeded = new Uint8Array(problem.activityCount)
  const activities: number[] = []
  for (let position = order.length - 1; position >= 0; position--) {
    const activity = order[position]!
    let needed = turnOf[activity] === turn
    for (let at = successorFirst[activity]!; at < successorFirst[activity + 1]! && !needed; at++)
      needed = isNeeded[successors[at]!] === 1
    if (!needed) continue
    if (isPinned[activity] === 1 || earliestStart[activity] === NEVER) return null
    isNeeded[activity] = 1
    activities.push(activity)
  }
  if (activities.length > ACTIVITIES_MOST) return null
  activities.reverse()
  const originTick = activities.reduce(
    (least, activity) => Math.min(least, earliestStart[activity]!),
    untilTick,
  )
  const local = new Int32Array(problem.activityCount).fill(-1)
  for (const [index, activity] of activities.entries()) local[activity] = index
  const modes = activities.map((activity) =>
    Array.from(
      { length: modeFirst[activity + 1]! - modeFirst[activity]! },
      (_, at) => modeFirst[activity]! + at,
    ),
  )
  const modeOf = new Int32Array(modes.flat())
  const within = (first: Int32Array, row: Int32Array): number[][] =>
    activities.map((activity) =>
      Array.from(row.subarray(first[activity]!, first[activity + 1]!), (other) => local[other]!).filter(
        (other) => other >= 0,
      ),
    )
  const forwards = Int32Array.from(activities, (_, index) => index)
  return {
    count: activities.length,
    originTick,
    spanTicks: untilTick - originTick,
    activityOf: new Int32Array(activities),
    modeFirst: firstOfRows(modes),
    modeOf,
    modeTicks: modeOf.map((mode) => problem.modeTicks[mode]!),
    heads: Int32Array.from(activities, (activity) => earliestStart[activity]! - originTick),
    fromStart: side(forwards, within(problem.predecessorFirst, problem.predecessors)),
    fromEnd: side(forwards.slice().reverse(), within(successorFirst, successors)),
  }
}

function side(order: Int32Array, predecessorLists: readonly number[][]): Side {
  const { setOf, sets } = setsBefore(order, predecessorLists)
  return {
    order,
    predecessorFirst: firstOfRows(predecessorLists),
    predecessors: new Int32Array(predecessorLists.flat()),
    setOf,
    setFirst: firstOfRows(sets),
    setMembers: new Int32Array(sets.flat()),
  }
}

/** Who waits for the same things shares a set. */
function setsBefore(
  order: Int32Array,
  predecessorLists: readonly number[][],
): { setOf: Int32Array; sets: number[][] } {
  const words = (order.length + 31) >> 5
  const before = new Int32Array(order.length * words)
  for (const activity of order) {
    for (const predecessor of predecessorLists[activity]!) {
      for (let word = 0; word < words; word++)
        before[activity * words + word]! |= before[predecessor * words + word]!
      before[activity * words + (predecessor >> 5)]! |= 1 << (predecessor & 31)
    }
  }
  const setOf = new Int32Array(order.length).fill(-1)
  const sets: number[][] = []
  const known = new Map<string, number>()
  let membersLeft = MEMBERS_MOST
  for (const activity of order) {
    const list = predecessorLists[activity]!
    if (list.length < 2 || membersLeft <= 0) continue
    const key = [...list].sort((a, b) => a - b).join()
    const same = known.get(key)
    if (same !== undefined) {
      setOf[activity] = same
      continue
    }
    const members: number[] = []
    for (const other of order)
      if ((before[activity * words + (other >> 5)]! & (1 << (other & 31))) !== 0) members.push(other)
    membersLeft -= members.length
    known.set(key, sets.length)
    setOf[activity] = sets.length
    sets.push(members)
  }
  sets.push([...order])
  return { setOf, sets }
}

function firstOfRows(rows: readonly (readonly unknown[])[]): Int32Array {
  const first = new Int32Array(rows.length + 1)
  for (const [index, row] of rows.entries()) first[index + 1] = first[index]! + row.length
  return first
}
