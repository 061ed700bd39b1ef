/** A schedule while it is being searched for, in the numbers of the prepared instance. */
import type { PreparedInstance } from '../prepared-instance.ts'

/** By activity; its lanes stand from its `slotFirst` on. */
export interface Draft {
  readonly starts: Int32Array
  readonly ends: Int32Array
  /** As counted over the whole instance. */
  readonly modes: Int32Array
  readonly lanes: Int32Array
}

export function emptyDraft(problem: PreparedInstance): Draft {
  const { activityCount, slotFirst } = problem
  return {
    starts: new Int32Array(activityCount),
    ends: new Int32Array(activityCount),
    modes: new Int32Array(activityCount),
    lanes: new Int32Array(slotFirst[activityCount]!),
  }
}

/** The same, to be gone on with. */
export const copyOf = ({ starts, ends, modes, lanes }: Draft): Draft => ({
  starts: starts.slice(),
  ends: ends.slice(),
  modes: modes.slice(),
  lanes: lanes.slice(),
})

/** The same seen backwards in time from the horizon. */
export const mirroredDraft = ({ starts, ends, modes, lanes }: Draft, horizonTick: number): Draft => ({
  starts: ends.map((tick) => horizonTick - tick),
  ends: starts.map((tick) => horizonTick - tick),
  modes,
  lanes,
})
