/** Something that work holds while it is done: how much of it each mode holds, and how much there is from tick to tick. */
import type { NeededWork } from './needed-work.ts'

export interface Supply {
  /** By mode of the needed work. */
  readonly units: Float64Array
  /** By tick from the origin; never negative. */
  readonly levels: Float64Array
  /** What there is at every tick; -1 where it changes. */
  readonly level: number
  readonly levelMost: number
  /** Sum of the levels of so many ticks from the origin; empty where the level never changes. */
  readonly freeFromStart: Float64Array
  /** The same from the far end backwards. */
  readonly freeFromEnd: Float64Array
}

export function supplyOf(work: NeededWork, units: Float64Array, levels: Float64Array): Supply {
  const { spanTicks } = work
  const levelMost = levels.reduce((most, level) => Math.max(most, level), 0)
  const isConstant = levels.every((level) => level === levelMost)
  const room = isConstant ? 0 : spanTicks + 1
  const freeFromStart = new Float64Array(room)
  const freeFromEnd = new Float64Array(room)
  for (let ticks = 1; ticks < room; ticks++) {
    freeFromStart[ticks] = freeFromStart[ticks - 1]! + levels[ticks - 1]!
    freeFromEnd[ticks] = freeFromEnd[ticks - 1]! + levels[spanTicks - ticks]!
  }
  return { units, levels, level: isConstant ? levelMost : -1, levelMost, freeFromStart, freeFromEnd }
}

/**
 * @param free the sums of a supply from one end; empty where `level` is the same at every tick
 * @returns the first tick, `fromTick` or later, by which so much has been free since `fromTick`; one more than there are
 * ticks when there never is
 */
export function tickWhenFree(
  free: Float64Array,
  level: number,
  spanTicks: number,
  fromTick: number,
  amount: number,
): number {
  if (amount <= 0) return fromTick
  if (level >= 0) return level === 0 ? spanTicks + 1 : fromTick + Math.ceil(amount / level)
  if (fromTick >= spanTicks) return spanTicks + 1
  const target = free[fromTick]! + amount
  if (free[spanTicks]! < target) return spanTicks + 1
  let low = fromTick
  let high = spanTicks
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (free[middle]! >= target) high = middle
    else low = middle
  }
  return high
}
