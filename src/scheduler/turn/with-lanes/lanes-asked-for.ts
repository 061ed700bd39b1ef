/**
 * What each mode asks of the lanes that are free for it, as rows "so many out of these lanes": by the theorem of Hall (1935)
 * its groups can be shared out if and only if, for every choice of groups, enough lanes serve one or another of them.
 */
import { bitCount, type PreparedInstance } from '../prepared-instance.ts'

/** Bit k of a mask of lanes: lane k. */
export const MASKED_LANES_MOST = 31
/** With so many groups in a mode there are twice as many rows less one for each more. */
export const GROUPS_MOST = 5

export interface LanesAskedFor {
  /** Rows of a mode: from `rowFirst[mode]` until `rowFirst[mode + 1]`; none when it needs no hands. */
  readonly rowFirst: Int32Array
  readonly rowLanes: Int32Array
  readonly rowCount: Int32Array
  /** Lanes that serve any group of the mode. */
  readonly modeLanes: Int32Array
}

/** @param problem with no more lanes and groups than above */
export function lanesAskedFor(problem: PreparedInstance): LanesAskedFor {
  const { groupFirst, groupMask, groupCount, modeTicks } = problem
  const rowFirst = [0]
  const rowLanes: number[] = []
  const rowCount: number[] = []
  const modeLanes = new Int32Array(modeTicks.length)
  for (let mode = 0; mode < modeTicks.length; mode++) {
    const groups = groupFirst[mode + 1]! - groupFirst[mode]!
    for (let choice = 1; choice < 1 << groups; choice++) {
      let lanes = 0
      let count = 0
      for (let group = 0; group < groups; group++) {
        if ((choice & (1 << group)) === 0) continue
        lanes |= lanesWith(problem, groupMask[groupFirst[mode]! + group]!)
        count += groupCount[groupFirst[mode]! + group]!
      }
      modeLanes[mode]! |= lanes
      addRow(rowLanes, rowCount, rowFirst[mode]!, lanes, count)
    }
    rowFirst.push(rowLanes.length)
  }
  return {
    rowFirst: new Int32Array(rowFirst),
    rowLanes: new Int32Array(rowLanes),
    rowCount: new Int32Array(rowCount),
    modeLanes,
  }
}

/** Of rows about the same lanes the one that asks for most says it all. */
function addRow(
  rowLanes: number[],
  rowCount: number[],
  firstOfMode: number,
  lanes: number,
  count: number,
): void {
  const same = rowLanes.indexOf(lanes, firstOfMode)
  if (same >= 0) rowCount[same] = Math.max(rowCount[same]!, count)
  else {
    rowLanes.push(lanes)
    rowCount.push(count)
  }
}

function lanesWith({ laneMask, laneCount }: PreparedInstance, skillMask: number): number {
  let lanes = 0
  for (let lane = 0; lane < laneCount; lane++) {
    if ((laneMask[lane]! & skillMask) === skillMask) lanes |= 1 << lane
  }
  return lanes
}

/** Whether the lanes of the mask are enough for every row. */
export function areEnough(
  { rowLanes, rowCount }: LanesAskedFor,
  rowsFrom: number,
  rowsTo: number,
  lanes: number,
): boolean {
  for (let row = rowsFrom; row < rowsTo; row++) {
    if (bitCount(lanes & rowLanes[row]!) < rowCount[row]!) return false
  }
  return true
}
