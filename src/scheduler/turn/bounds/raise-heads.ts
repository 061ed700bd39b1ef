/**
 * From one end of time to the other: nothing starts before all it waits for is over, and that takes as long as all of it
 * together keeps each supply busy at least, from each of its heads on: by what it takes of it, and by how much of it can
 * be done side by side. A mode that no longer fits in is struck out.
 */
import type { NeededWork, Side } from './needed-work.ts'
import { addLength, type Lengths, noLengths, ticksSideBySide } from './side-by-side.ts'
import type { Supplies } from './supplies.ts'
import { type Supply, tickWhenFree } from './supply.ts'
import { strikeOut, type Windows } from './windows.ts'

/** What the passes from one end need, made once. */
export interface Pass {
  readonly side: Side
  readonly isFromEnd: boolean
  /** By activity: when it is over at the earliest. */
  readonly ends: Int32Array
  readonly lengths: Lengths
  /** By set: when all of it is over at the earliest; -1: not yet asked in this pass. */
  readonly setTicks: Int32Array
}

export function passFrom(side: Side, isFromEnd: boolean): Pass {
  return {
    side,
    isFromEnd,
    ends: new Int32Array(side.order.length),
    lengths: noLengths(side.order.length),
    setTicks: new Int32Array(side.setFirst.length - 1),
  }
}

/** @returns false when some activity no longer fits in */
export function raiseHeads(work: NeededWork, supplies: Supplies, windows: Windows, pass: Pass): boolean {
  const { side, isFromEnd, ends, setTicks } = pass
  const { spanTicks, modeFirst, modeTicks } = work
  const heads = isFromEnd ? windows.headsFromEnd : windows.headsFromStart
  const otherHeads = isFromEnd ? windows.headsFromStart : windows.headsFromEnd
  setTicks.fill(-1)
  for (const activity of side.order) {
    let soonest = heads[activity]!
    for (let at = side.predecessorFirst[activity]!; at < side.predecessorFirst[activity + 1]!; at++) {
      const end = ends[side.predecessors[at]!]!
      if (end > soonest) soonest = end
    }
    const set = side.setOf[activity]!
    if (set >= 0) {
      if (setTicks[set]! < 0) setTicks[set] = ticksOfSet(work, supplies, windows, pass, heads, set)
      if (setTicks[set]! > soonest) soonest = setTicks[set]!
    }
    const latestEnd = spanTicks - otherHeads[activity]!
    let start = spanTicks + 1
    let end = spanTicks + 1
    for (let mode = modeFirst[activity]!; mode < modeFirst[activity + 1]!; mode++) {
      if (windows.isOut[mode] === 1) continue
      const from = fitFrom(
        supplies.changing,
        mode,
        modeTicks[mode]!,
        soonest,
        latestEnd,
        isFromEnd,
        spanTicks,
      )
      if (from + modeTicks[mode]! > latestEnd) {
        if (!strikeOut(work, supplies.all, windows, activity, mode)) return false
        continue
      }
      if (from < start) start = from
      if (from + modeTicks[mode]! < end) end = from + modeTicks[mode]!
    }
    ends[activity] = end
    if (start > heads[activity]!) {
      heads[activity] = start
      windows.isChanged[activity] = 1
    }
  }
  // All of it has to be over before what is left of the span from the other end.
  let leastOtherHead = spanTicks
  for (const head of otherHeads) if (head < leastOtherHead) leastOtherHead = head
  return ticksOfSet(work, supplies, windows, pass, heads, setTicks.length - 1) <= spanTicks - leastOtherHead
}

/** The first tick at which every supply that comes and goes is there in the measure of the mode for so long. */
function fitFrom(
  changing: readonly Supply[],
  mode: number,
  ticks: number,
  soonest: number,
  latestEnd: number,
  isFromEnd: boolean,
  spanTicks: number,
): number {
  let from = soonest
  let isFitting = false
  while (!isFitting && from + ticks <= latestEnd) {
    isFitting = true
    for (const { units, levels } of changing) {
      const needed = units[mode]!
      if (needed === 0) continue
      for (let tick = from + ticks - 1; tick >= from; tick--) {
        if (levels[isFromEnd ? spanTicks - 1 - tick : tick]! >= needed) continue
        from = tick + 1
        isFitting = false
        break
      }
      if (from + ticks > latestEnd) return from
    }
  }
  return from
}

/** When all of the set is over at the earliest. */
function ticksOfSet(
  { count, spanTicks }: NeededWork,
  { all, thereCount }: Supplies,
  windows: Windows,
  { side, isFromEnd, lengths }: Pass,
  heads: Int32Array,
  set: number,
): number {
  const { setMembers } = side
  const { leastEnergy, leastUnits, leastTicks } = windows
  const first = side.setFirst[set]!
  const last = side.setFirst[set + 1]!
  // Nearly in order since the last pass.
  for (let at = first + 1; at < last; at++) {
    const member = setMembers[at]!
    const head = heads[member]!
    let to = at
    while (to > first && heads[setMembers[to - 1]!]! < head) {
      setMembers[to] = setMembers[to - 1]!
      to -= 1
    }
    setMembers[to] = member
  }
  let latest = 0
  for (let index = 0; index < all.length; index++) {
    const supply = all[index]!
    const free = isFromEnd ? supply.freeFromEnd : supply.freeFromStart
    const row = index * count
    let amount = 0
    let held = supply.levelMost + 1
    lengths.count = 0
    for (let at = first; at < last; at++) {
      const member = setMembers[at]!
      const energy = leastEnergy[row + member]!
      if (energy > 0) {
        amount += energy
        if (index < thereCount) {
          if (leastUnits[row + member]! < held) held = leastUnits[row + member]!
          addLength(lengths, leastTicks[member]!)
        }
      }
      // Of those with the same head all count.
      if (amount === 0 || (at + 1 < last && heads[setMembers[at + 1]!] === heads[member])) continue
      const from = heads[member]!
      const tick = tickWhenFree(free, supply.level, spanTicks, from, amount)
      if (tick > latest) latest = tick
      if (lengths.count < 2 || held > supply.levelMost) continue
      const other = from + ticksSideBySide(lengths, Math.floor(supply.levelMost / held))
      if (other > latest) latest = other
    }
  }
  return latest
}
