/** What is free at every tick while a pass places tasks. */
import type { Problem } from './problem.ts'

export interface Timetable {
  readonly free: Int32Array
  /** From here on nothing has been placed. */
  usedTicks: number
}

export function emptyTimetable(problem: Problem): Timetable {
  const { wordCount, empty } = problem.packing
  const free = new Int32Array((problem.horizonTicks + 1) * wordCount)
  for (let at = 0; at < free.length; at++) free[at] = empty[at % wordCount]!
  return { free, usedTicks: 0 }
}

export function clearTimetable(problem: Problem, timetable: Timetable): void {
  const { wordCount, empty } = problem.packing
  if (wordCount === 1) timetable.free.fill(empty[0]!, 0, timetable.usedTicks)
  else {
    const until = timetable.usedTicks * wordCount
    for (let at = 0; at < until; at++) timetable.free[at] = empty[at % wordCount]!
  }
  timetable.usedTicks = 0
}

/** First tick at or after `earliestTick` from which the mode fits all through. */
export function fitFromTick(
  problem: Problem,
  timetable: Timetable,
  earliestTick: number,
  mode: number,
): number {
  const { guard, wordCount } = problem.packing
  if (wordCount > 1) return fitFromTickInWords(problem, timetable, earliestTick, mode)
  const free = timetable.free
  const need = problem.modePackedUses[mode]!
  const duration = problem.modeDurationTicks[mode]!
  let start = earliestTick
  // From the back: the last tick that does not fit lets the start jump furthest. What lies behind it fits.
  let unseenFrom = start
  let tick = start + duration - 1
  while (tick >= unseenFrom) {
    if (((free[tick]! - need) & guard) === guard) tick--
    else {
      unseenFrom = start + duration
      start = tick + 1
      tick = start + duration - 1
    }
  }
  return start
}

function fitFromTickInWords(
  problem: Problem,
  timetable: Timetable,
  earliestTick: number,
  mode: number,
): number {
  const { guard, wordCount } = problem.packing
  const { modePackedUses } = problem
  const free = timetable.free
  const duration = problem.modeDurationTicks[mode]!
  let start = earliestTick
  let unseenFrom = start
  let tick = start + duration - 1
  while (tick >= unseenFrom) {
    let word = 0
    while (
      word < wordCount &&
      ((free[tick * wordCount + word]! - modePackedUses[mode * wordCount + word]!) & guard) === guard
    ) {
      word++
    }
    if (word === wordCount) tick--
    else {
      unseenFrom = start + duration
      start = tick + 1
      tick = start + duration - 1
    }
  }
  return start
}

/** Takes what the mode uses from `startTick` on; it must fit. Gives its end. */
export function placeAtTick(problem: Problem, timetable: Timetable, startTick: number, mode: number): number {
  const { wordCount } = problem.packing
  const { modePackedUses } = problem
  const free = timetable.free
  const end = startTick + problem.modeDurationTicks[mode]!
  if (wordCount === 1) {
    const need = modePackedUses[mode]!
    for (let tick = startTick; tick < end; tick++) free[tick]! -= need
  } else {
    for (let tick = startTick; tick < end; tick++) {
      for (let word = 0; word < wordCount; word++) {
        free[tick * wordCount + word]! -= modePackedUses[mode * wordCount + word]!
      }
    }
  }
  if (end > timetable.usedTicks) timetable.usedTicks = end
  return end
}
