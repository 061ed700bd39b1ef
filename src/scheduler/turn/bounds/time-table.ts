/**
 * What is going on for certain: an activity that must have begun before it can be over goes on from its latest start to its
 * earliest end, whenever else it does. Of no supply may more be held so than there is; and what has no room beside that at
 * its head starts later (time-table reasoning: Le Pape, Implementation of resource constraints in ILOG Schedule, 1994).
 */
import type { NeededWork } from './needed-work.ts'
import type { Supply } from './supply.ts'
import type { Windows } from './windows.ts'

/** Arrays, made once, and what is written for the supply that is looked at. */
export interface TimeTable {
  /** By tick, from `heldFrom` to `heldTo`: what is left beside what is held for certain. Elsewhere nothing is so held. */
  readonly left: Float64Array
  heldFrom: number
  heldTo: number
  leftLeast: number
  /** By activity: its certain part, empty where `certainTo` is not behind `certainFrom`. */
  readonly certainFrom: Int32Array
  readonly certainTo: Int32Array
  /** Activities and ticks looked at in the last call. */
  looks: number
}

export function emptyTimeTable({ count, spanTicks }: NeededWork): TimeTable {
  return {
    left: new Float64Array(spanTicks + 1),
    heldFrom: 0,
    heldTo: 0,
    leftLeast: 0,
    certainFrom: new Int32Array(count),
    certainTo: new Int32Array(count),
    looks: 0,
  }
}

/**
 * @param looksMost after so many looks no further supply is asked
 * @returns false when more is held for certain than there is, or something no longer fits in beside it
 */
export function timeTableHolds(
  work: NeededWork,
  supplies: readonly Supply[],
  windows: Windows,
  table: TimeTable,
  looksMost: number,
): boolean {
  const { count, spanTicks } = work
  const { headsFromStart, headsFromEnd, leastTicks, leastUnits } = windows
  const { certainFrom, certainTo } = table
  table.looks = count
  let isAnyCertain = false
  for (let activity = 0; activity < count; activity++) {
    // In the shortest mode; any other goes on for longer.
    certainFrom[activity] = spanTicks - headsFromEnd[activity]! - leastTicks[activity]!
    certainTo[activity] = headsFromStart[activity]! + leastTicks[activity]!
    isAnyCertain ||= certainFrom[activity]! < certainTo[activity]!
  }
  if (!isAnyCertain) return true
  for (let index = 0; index < supplies.length && table.looks <= looksMost; index++) {
    if (!holdCertain(work, supplies[index]!, index, windows, table)) return false
    if (table.heldFrom >= table.heldTo) continue
    for (let activity = 0; activity < count; activity++) {
      const units = leastUnits[index * count + activity]!
      if (units <= table.leftLeast || leastTicks[activity] === 0) continue
      // What can only go on just so is held for certain, all of it.
      if (certainFrom[activity]! <= headsFromStart[activity]!) continue
      if (!findsRoom(spanTicks, units, windows, table, activity)) return false
    }
  }
  return true
}

/** Writes what is left. @returns false: more is held than there is */
function holdCertain(
  { count, spanTicks }: NeededWork,
  { levels }: Supply,
  index: number,
  { leastUnits }: Windows,
  table: TimeTable,
): boolean {
  const { left, certainFrom, certainTo } = table
  left.fill(0)
  let heldFrom = spanTicks
  let heldTo = 0
  for (let activity = 0; activity < count; activity++) {
    const units = leastUnits[index * count + activity]!
    const from = certainFrom[activity]!
    const to = certainTo[activity]!
    if (units === 0 || from >= to) continue
    left[from]! += units
    left[to]! -= units
    if (from < heldFrom) heldFrom = from
    if (to > heldTo) heldTo = to
  }
  let held = 0
  let leftLeast = Number.POSITIVE_INFINITY
  for (let tick = heldFrom; tick < heldTo; tick++) {
    held += left[tick]!
    const rest = levels[tick]! - held
    if (rest < 0) return false
    if (rest < leftLeast) leftLeast = rest
    left[tick] = rest
  }
  table.heldFrom = heldFrom
  table.heldTo = heldTo
  table.leftLeast = leftLeast
  table.looks += count + Math.max(0, heldTo - heldFrom)
  return true
}

/** Raises its heads to where it has room beside what others hold for certain. @returns false: nowhere */
function findsRoom(
  spanTicks: number,
  units: number,
  { headsFromStart, headsFromEnd, leastTicks, isChanged }: Windows,
  table: TimeTable,
  activity: number,
): boolean {
  const { left, heldFrom, heldTo, certainFrom, certainTo } = table
  const ticks = leastTicks[activity]!
  const head = headsFromStart[activity]!
  const deadline = spanTicks - headsFromEnd[activity]!
  // In its own certain part there is room for it: it is held there already.
  const ownFrom = certainFrom[activity]!
  const ownTo = certainTo[activity]!
  let looks = 1
  let start = head
  for (let tick = Math.min(start + ticks, heldTo) - 1; tick >= start && tick >= heldFrom; tick--) {
    looks += 1
    if (left[tick]! >= units || (tick >= ownFrom && tick < ownTo)) continue
    start = tick + 1
    if (start + ticks > deadline) return false
    tick = Math.min(start + ticks, heldTo)
  }
  let end = deadline
  for (let tick = Math.max(end - ticks, heldFrom); tick < end && tick < heldTo; tick++) {
    looks += 1
    if (left[tick]! >= units || (tick >= ownFrom && tick < ownTo)) continue
    end = tick
    if (start + ticks > end) return false
    tick = Math.max(end - ticks, heldFrom) - 1
  }
  table.looks += looks
  if (start > head || end < deadline) {
    headsFromStart[activity] = start
    headsFromEnd[activity] = spanTicks - end
    isChanged[activity] = 1
  }
  return true
}
