/**
 * Whatever can neither start before a tick nor end after another must find between them all it takes. What is left over
 * there is all that a mode of it may take beyond the least.
 */
import type { NeededWork } from './needed-work.ts'
import type { Supply } from './supply.ts'
import { strikeOut, type Windows } from './windows.ts'

/** Arrays of the passes, made once. */
export interface IntervalScratch {
  /** All activities, by deadline, earliest first, as it was when last looked at. */
  readonly byDeadline: Int32Array
  readonly inside: Int32Array
  readonly left: Float64Array
  readonly heads: Int32Array
}

export function intervalScratch({ count }: NeededWork): IntervalScratch {
  return {
    byDeadline: Int32Array.from({ length: count }, (_, index) => index),
    inside: new Int32Array(count),
    left: new Float64Array(count),
    heads: new Int32Array(count),
  }
}

/** @returns false when something does not find what it takes */
export function intervalsHold(
  work: NeededWork,
  supplies: readonly Supply[],
  windows: Windows,
  scratch: IntervalScratch,
): boolean {
  const { count, spanTicks } = work
  const { headsFromStart, headsFromEnd, leastEnergy } = windows
  const { byDeadline, inside, left, heads } = scratch
  sortByDeadline(byDeadline, headsFromEnd)
  heads.set(headsFromStart)
  heads.sort()
  for (let place = count - 1; place >= 0; place--) {
    const from = heads[place]!
    if (place > 0 && heads[place - 1] === from) continue
    let insideCount = 0
    for (const activity of byDeadline)
      if (headsFromStart[activity]! >= from) {
        inside[insideCount] = activity
        insideCount += 1
      }
    for (let index = 0; index < supplies.length; index++) {
      const { level, freeFromStart } = supplies[index]!
      const row = index * count
      let amount = 0
      for (let at = 0; at < insideCount; at++) {
        const activity = inside[at]!
        amount += leastEnergy[row + activity]!
        const to = spanTicks - headsFromEnd[activity]!
        const free = level >= 0 ? level * (to - from) : freeFromStart[to]! - freeFromStart[from]!
        left[at] = free - amount
        if (free < amount) return false
      }
      let leftLeast = Number.POSITIVE_INFINITY
      for (let at = insideCount - 1; at >= 0; at--) {
        const activity = inside[at]!
        if (left[at]! < leftLeast) leftLeast = left[at]!
        if (windows.modesLeft[activity] === 1) continue
        if (!strikeOutDear(work, supplies, windows, activity, index, leftLeast)) return false
      }
    }
  }
  return true
}

function strikeOutDear(
  work: NeededWork,
  supplies: readonly Supply[],
  windows: Windows,
  activity: number,
  supply: number,
  left: number,
): boolean {
  const { units } = supplies[supply]!
  const most = windows.leastEnergy[supply * work.count + activity]! + left
  for (let mode = work.modeFirst[activity]!; mode < work.modeFirst[activity + 1]!; mode++) {
    if (windows.isOut[mode] === 1 || units[mode]! * work.modeTicks[mode]! <= most) continue
    if (!strikeOut(work, supplies, windows, activity, mode)) return false
  }
  return true
}

function sortByDeadline(activities: Int32Array, headsFromEnd: Int32Array): void {
  for (let at = 1; at < activities.length; at++) {
    const activity = activities[at]!
    const head = headsFromEnd[activity]!
    let to = at
    while (to > 0 && headsFromEnd[activities[to - 1]!]! < head) {
      activities[to] = activities[to - 1]!
      to -= 1
    }
    activities[to] = activity
  }
}
