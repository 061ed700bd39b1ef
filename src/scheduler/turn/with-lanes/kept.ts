/** What is kept of a schedule that was made for another version of an instance: modes, and lanes that can still do it. */
import type { Schedule, ScheduledActivity } from '../instance.ts'
import type { PreparedInstance } from '../prepared-instance.ts'

export interface Kept {
  /** By activity, as counted over the whole instance. */
  readonly modes: Int32Array
  /** As in a draft, where `hasLanes` is 1. */
  readonly lanes: Int32Array
  /** 1: as many lanes as the mode needs, all different, each there with the skills. */
  readonly hasLanes: Uint8Array
}

/** @returns null when the schedule does not speak of the same activities and modes */
export function keptOf(problem: PreparedInstance, schedule: Schedule): Kept | null {
  const { activityCount, modeFirst, slotFirst } = problem
  if (schedule.activities.length !== activityCount) return null
  const modes = new Int32Array(activityCount)
  const lanes = new Int32Array(slotFirst[activityCount]!)
  const hasLanes = new Uint8Array(activityCount)
  for (let activity = 0; activity < activityCount; activity++) {
    const planned = schedule.activities[activity]!
    const mode = modeFirst[activity]! + planned.mode
    if (planned.activity !== activity || !(mode >= modeFirst[activity]! && mode < modeFirst[activity + 1]!)) {
      return null
    }
    modes[activity] = mode
    if (!lanesCanDoIt(problem, planned, mode)) continue
    lanes.set(planned.lanes, slotFirst[activity]!)
    hasLanes[activity] = 1
  }
  return { modes, lanes, hasLanes }
}

function lanesCanDoIt(problem: PreparedInstance, planned: ScheduledActivity, mode: number): boolean {
  const { groupFirst, groupCount, groupMask, laneMask, modeHands } = problem
  const { lanes } = planned
  if (lanes.length !== modeHands[mode]) return false
  let slot = 0
  for (let group = groupFirst[mode]!; group < groupFirst[mode + 1]!; group++) {
    const mask = groupMask[group]!
    for (const slotsTo = slot + groupCount[group]!; slot < slotsTo; slot++) {
      const lane = lanes[slot]!
      if (lanes.indexOf(lane) !== slot || ((laneMask[lane] ?? 0) & mask) !== mask) return false
      if (laneMask[lane] === undefined) return false
    }
  }
  return true
}
