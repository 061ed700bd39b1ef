/**
 * Between when and when each activity can be done, and in which modes, supposing that the turn is ready in time. Heads
 * only rise and modes are only struck out; whatever was concluded stays true when the turn is supposed to be ready sooner.
 */
import type { NeededWork } from './needed-work.ts'
import type { Supply } from './supply.ts'

export interface Windows {
  /** Ticks from the origin before which it does not start. */
  readonly headsFromStart: Int32Array
  /** Ticks from the far end backwards, in which it is over already. */
  readonly headsFromEnd: Int32Array
  /** By mode of the needed work: 1 when it can no longer be. */
  readonly isOut: Uint8Array
  readonly modesLeft: Int32Array
  /** Of the modes left. */
  readonly leastTicks: Int32Array
  /** `leastEnergy[supply * count + activity]`: units × ticks in the mode left that takes least. */
  readonly leastEnergy: Float64Array
  /** `leastUnits[supply * count + activity]`: units in the mode left that holds least. */
  readonly leastUnits: Float64Array
  /** By activity: 1 when something was concluded of it since this was last cleared. Not copied. */
  readonly isChanged: Uint8Array
}

export function widestWindows(work: NeededWork, supplies: readonly Supply[]): Windows {
  const { count, modeFirst, heads } = work
  const windows: Windows = {
    headsFromStart: heads.slice(),
    headsFromEnd: new Int32Array(count),
    isOut: new Uint8Array(work.modeOf.length),
    modesLeft: new Int32Array(count),
    leastTicks: new Int32Array(count),
    leastEnergy: new Float64Array(count * supplies.length),
    leastUnits: new Float64Array(count * supplies.length),
    isChanged: new Uint8Array(count),
  }
  for (let activity = 0; activity < count; activity++) {
    windows.modesLeft[activity] = modeFirst[activity + 1]! - modeFirst[activity]!
    takeStock(work, supplies, windows, activity)
  }
  return windows
}

export function copyWindows(from: Windows, to: Windows): void {
  to.headsFromStart.set(from.headsFromStart)
  to.headsFromEnd.set(from.headsFromEnd)
  to.isOut.set(from.isOut)
  to.modesLeft.set(from.modesLeft)
  to.leastTicks.set(from.leastTicks)
  to.leastEnergy.set(from.leastEnergy)
  to.leastUnits.set(from.leastUnits)
}

/** @returns false when the activity has no mode left */
export function strikeOut(
  work: NeededWork,
  supplies: readonly Supply[],
  windows: Windows,
  activity: number,
  mode: number,
): boolean {
  if (windows.isOut[mode] === 1) return true
  windows.isOut[mode] = 1
  windows.isChanged[activity] = 1
  windows.modesLeft[activity]! -= 1
  if (windows.modesLeft[activity] === 0) return false
  takeStock(work, supplies, windows, activity)
  return true
}

/** What the modes left take at least. */
function takeStock(
  { count, modeFirst, modeTicks }: NeededWork,
  supplies: readonly Supply[],
  { isOut, leastTicks, leastEnergy, leastUnits }: Windows,
  activity: number,
): void {
  const first = modeFirst[activity]!
  const end = modeFirst[activity + 1]!
  let ticks = Number.POSITIVE_INFINITY
  for (let mode = first; mode < end; mode++)
    if (isOut[mode] === 0 && modeTicks[mode]! < ticks) ticks = modeTicks[mode]!
  leastTicks[activity] = ticks
  for (let supply = 0; supply < supplies.length; supply++) {
    const { units } = supplies[supply]!
    let energy = Number.POSITIVE_INFINITY
    let held = Number.POSITIVE_INFINITY
    for (let mode = first; mode < end; mode++) {
      if (isOut[mode] === 1) continue
      const taken = units[mode]! * modeTicks[mode]!
      if (taken < energy) energy = taken
      if (units[mode]! < held) held = units[mode]!
    }
    leastEnergy[supply * count + activity] = energy
    leastUnits[supply * count + activity] = held
  }
}
