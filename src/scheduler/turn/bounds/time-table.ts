/**
 * What is going on for certain: an activity that must have begun before it can be over goes on from its latest start to its
 * earliest end, whenever else it does. Of no supply may more be held so than there is; and what has no room beside that at
 * its head starts later (time-table reasoning: Le Pape, Implementation of resource constraints in ILOG Schedule, 1994).
 */
import type { NeededWork } from './needed-work.ts'
import type { Supply } from './supply.ts'
import type { Windows } from './windows.ts'

/** Arrays, made once. */
export interface TimeTable {
  /** By tick: held for certain of the supply that is looked at. */
  readonly held: Float64Array
  /** By activity: its certain part, empty where `certainTo` is not behind `certainFrom`. */
  readonly certainFrom: Int32Array
  readonly certainTo: Int32Array
}

export function emptyTimeTable({ count, spanTicks }: NeededWork): TimeTable {
  return {
    held: new Float64Array(spanTicks + 1),
    certainFrom: new Int32Array(count),
    certainTo: new Int32Array(count),
  }
}

/** @returns false when more is held for certain than there is, or something no longer fits in beside it */
export function timeTableHolds(
  work: NeededWork,
  supplies: readonly Supply[],
  windows: Windows,
  table: TimeTable,
): boolean {
  const { count, spanTicks } = work
  const { headsFromStart, headsFromEnd, leastTicks } = windows
  const { certainFrom, certainTo } = table
  let isAnyCertain = false
  for (let activity = 0; activity < count; activity++) {
    // In the shortest mode; any other goes on for longer.
    certainFrom[activity] = spanTicks - headsFromEnd[activity]! - leastTicks[activity]!
    certainTo[activity] = headsFromStart[activity]! + leastTicks[activity]!
    isAnyCertain ||= certainFrom[activity]! < certainTo[activity]!
  }
  if (!isAnyCertain) return true
  for (let index = 0; index < supplies.length; index++) {
    if (!holdCertain(work, supplies[index]!, index, windows, table)) return false
    if (table.held[spanTicks] === 0) continue
    for (let activity = 0; activity < count; activity++) {
      const units = windows.leastUnits[index * count + activity]!
      if (units === 0 || leastTicks[activity] === 0) continue
      if (!findsRoom(work, supplies[index]!, units, windows, table, activity)) return false
    }
  }
  return true
}

/** Writes `held`; behind the last tick whether anything is. @returns false: more than there is */
function holdCertain(
  { count, spanTicks }: NeededWork,
  { levels }: Supply,
  index: number,
  { leastUnits }: Windows,
  { held, certainFrom, certainTo }: TimeTable,
): boolean {
  held.fill(0)
  let isAnyHeld = false
  for (let activity = 0; activity < count; activity++) {
    const units = leastUnits[index * count + activity]!
    if (units === 0 || certainFrom[activity]! >= certainTo[activity]!) continue
    held[certainFrom[activity]!]! += units
    held[certainTo[activity]!]! -= units
    isAnyHeld = true
  }
  let units = 0
  for (let tick = 0; tick < spanTicks; tick++) {
    units += held[tick]!
    held[tick] = units
    if (units > levels[tick]!) return false
  }
  held[spanTicks] = isAnyHeld ? 1 : 0
  return true
}

/** Raises its heads to where it has room beside what others hold for certain. @returns false: nowhere */
function findsRoom(
  { spanTicks }: NeededWork,
  { levels }: Supply,
  units: number,
  { headsFromStart, headsFromEnd, leastTicks, isChanged }: Windows,
  { held, certainFrom, certainTo }: TimeTable,
  activity: number,
): boolean {
  const ticks = leastTicks[activity]!
  const ownFrom = certainFrom[activity]!
  const ownTo = certainTo[activity]!
  const isFull = (tick: number): boolean =>
    held[tick]! - (tick >= ownFrom && tick < ownTo ? units : 0) + units > levels[tick]!
  let start = headsFromStart[activity]!
  for (let tick = start + ticks - 1; tick >= start; tick--) {
    if (!isFull(tick)) continue
    start = tick + 1
    if (start + ticks + headsFromEnd[activity]! > spanTicks) return false
    tick = start + ticks
  }
  let end = spanTicks - headsFromEnd[activity]!
  for (let tick = end - ticks; tick < end; tick++) {
    if (!isFull(tick)) continue
    end = tick
    if (start + ticks > end) return false
    tick = end - ticks - 1
  }
  if (start > headsFromStart[activity]! || spanTicks - end > headsFromEnd[activity]!) {
    headsFromStart[activity] = start
    headsFromEnd[activity] = spanTicks - end
    isChanged[activity] = 1
  }
  return true
}
