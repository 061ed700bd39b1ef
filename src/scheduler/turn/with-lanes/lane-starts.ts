/** When lanes can begin, each for itself, and so many of them at the earliest. */
import { NEVER } from '../far-tick.ts'
import type { PreparedInstance } from '../prepared-instance.ts'

/**
 * @param laneStart by lane: the first tick from which it is free for long enough, since the tick that was asked for
 * @param startsInOrder room for as many ticks as there are lanes; what is in it does not matter
 * @returns when so many lanes with all skills of the mask have each been free once; NEVER when there are not so many
 */
export function startOfSoMany(
  problem: PreparedInstance,
  laneStart: Int32Array,
  count: number,
  skillMask: number,
  startsInOrder: Int32Array,
): number {
  const { laneMask, laneCount } = problem
  let kept = 0
  for (let lane = 0; lane < laneCount; lane++) {
    if ((laneMask[lane]! & skillMask) !== skillMask) continue
    const start = laneStart[lane]!
    let at = kept
    if (kept === count) {
      if (start >= startsInOrder[kept - 1]!) continue
      at = kept - 1
    } else {
      kept += 1
    }
    while (at > 0 && startsInOrder[at - 1]! > start) {
      startsInOrder[at] = startsInOrder[at - 1]!
      at -= 1
    }
    startsInOrder[at] = start
  }
  return kept < count ? NEVER : startsInOrder[count - 1]!
}

/** NEVER when no lane starts later. */
export function nextStartAfter(laneStart: Int32Array, tick: number): number {
  let next = NEVER
  for (const start of laneStart) if (start > tick && start < next) next = start
  return next
}
