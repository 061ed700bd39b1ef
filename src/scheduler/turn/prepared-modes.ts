/** The modes of all activities, laid out in one row for the inner loops. */
import { FAR_TICK } from './far-tick.ts'
import type { Activity, Mode } from './instance.ts'

export interface PreparedModes {
  /** Modes of all activities in one row. */
  readonly modeFirst: Int32Array
  readonly modeTicks: Int32Array
  readonly modeHands: Int32Array
  readonly modePersonTicks: Int32Array
  /** Modes of an activity, shortest first, then fewest person-ticks, then fewest hands. */
  readonly modesShortestFirst: Int32Array
  readonly groupFirst: Int32Array
  readonly groupCount: Int32Array
  readonly groupMask: Int32Array
  readonly useFirst: Int32Array
  readonly useResource: Int32Array
  readonly useAmount: Int32Array
  readonly shortestTicks: Int32Array
  /** Where the lanes of an activity are written in a draft: room for its mode with most hands. */
  readonly slotFirst: Int32Array
}

/** Plain loops: this is done for every request, and the tidier `flatMap` takes several times as long here. */
export function preparedModes(activities: readonly Activity[]): PreparedModes {
  const modeFirst = [0]
  const modeTicks: number[] = []
  const modeHands: number[] = []
  const modePersonTicks: number[] = []
  const modesShortestFirst: number[] = []
  const groupFirst = [0]
  const groupCount: number[] = []
  const groupMask: number[] = []
  const useFirst = [0]
  const useResource: number[] = []
  const useAmount: number[] = []
  const shortestTicks: number[] = []
  const slotFirst = [0]
  for (const activity of activities) {
    const own: number[] = []
    let shortest = FAR_TICK
    let handsMost = 0
    for (const mode of activity.modes) {
      let hands = 0
      for (const need of mode.hands) {
        groupCount.push(need.count)
        groupMask.push(need.skillMask)
        hands += need.count
      }
      groupFirst.push(groupCount.length)
      addUses(mode, useResource, useAmount, useFirst.at(-1)!)
      useFirst.push(useResource.length)
      own.push(modeTicks.length)
      modeTicks.push(mode.durationTicks)
      modeHands.push(hands)
      modePersonTicks.push(hands * mode.durationTicks)
      shortest = Math.min(shortest, mode.durationTicks)
      handsMost = Math.max(handsMost, hands)
    }
    own.sort(
      (a, b) =>
        modeTicks[a]! - modeTicks[b]! ||
        modePersonTicks[a]! - modePersonTicks[b]! ||
        modeHands[a]! - modeHands[b]! ||
        a - b,
    )
    for (const mode of own) modesShortestFirst.push(mode)
    modeFirst.push(modeTicks.length)
    shortestTicks.push(shortest)
    slotFirst.push(slotFirst.at(-1)! + handsMost)
  }
  return {
    modeFirst: new Int32Array(modeFirst),
    modeTicks: new Int32Array(modeTicks),
    modeHands: new Int32Array(modeHands),
    modePersonTicks: new Int32Array(modePersonTicks),
    modesShortestFirst: new Int32Array(modesShortestFirst),
    groupFirst: new Int32Array(groupFirst),
    groupCount: new Int32Array(groupCount),
    groupMask: new Int32Array(groupMask),
    useFirst: new Int32Array(useFirst),
    useResource: new Int32Array(useResource),
    useAmount: new Int32Array(useAmount),
    shortestTicks: new Int32Array(shortestTicks),
    slotFirst: new Int32Array(slotFirst),
  }
}

/** What a mode uses of each resource, added up where it names one twice. */
function addUses(mode: Mode, useResource: number[], useAmount: number[], firstOfMode: number): void {
  for (const use of mode.uses) {
    if (use.amount === 0) continue
    const same = useResource.indexOf(use.resource, firstOfMode)
    if (same >= 0) useAmount[same]! += use.amount
    else {
      useResource.push(use.resource)
      useAmount.push(use.amount)
    }
  }
}
