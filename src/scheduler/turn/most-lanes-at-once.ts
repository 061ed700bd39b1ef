/** How many hands there are at one time at most. */

import type { PreparedInstance } from './prepared-instance.ts'
import { FreeLaneTime } from './with-lanes/free-lane-time.ts'

/**
 * @returns the most lanes that are free from one tick on for so long, with all skills of the mask; that tick is not before
 * `fromTick` and not after `latestStart`
 */
export function mostLanesAtOnce(
  problem: PreparedInstance,
  ticks: number,
  place: number,
  skillMask: number,
  fromTick: number,
  latestStart: number,
): number {
  const lanes = new FreeLaneTime(problem)
  lanes.clear()
  let most = 0
  for (let of = 0; of < problem.laneCount; of++) {
    let start = lanes.earliest(of, fromTick, ticks, place)
    for (let gap = 0; gap <= lanes.gapsOf(of) && start <= latestStart; gap++) {
      let count = 0
      for (let lane = 0; lane < problem.laneCount; lane++) {
        if ((problem.laneMask[lane]! & skillMask) !== skillMask) continue
        if (lanes.earliest(lane, start, ticks, place) === start) count += 1
      }
      most = Math.max(most, count)
      start = lanes.earliest(of, lanes.gapEndFrom(of, start + ticks), ticks, place)
    }
  }
  return most
}
