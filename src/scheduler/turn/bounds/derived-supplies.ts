/**
 * What follows from a supply, as supplies. Rounded: of a doorway of 1,000 two pieces of 350 pass side by side, not three,
 * so that each takes half of it. Combined: a mode that needs fewer hands holds the trolley longer; each by itself
 * could be done in the mode that suits it, both together cannot.
 */
import type { NeededWork } from './needed-work.ts'
import { type Supply, supplyOf } from './supply.ts'

/** Up to how many side by side. */
const PARTS_MOST = 3
/** Beyond, products of units and ticks could leave the whole numbers that are exact. */
const PRODUCT_MOST = 1 << 26

/**
 * A dual feasible function for each number of parts k, scaled to whole numbers: with f = (k + 1) x / level, what is x
 * weighs k f where f is whole and (k + 1) floor(f) elsewhere, of k (k + 1). After Fekete and Schepers, New classes of fast
 * lower bounds for bin packing problems, 2001 (from memory). Only where there is the same at every tick; none where
 * nothing changes by it.
 */
export function roundedSupplies(work: NeededWork, { units, level, levelMost, levels }: Supply): Supply[] {
  if (level <= 0 || levelMost > PRODUCT_MOST) return []
  const list: Supply[] = []
  for (let parts = 1; parts <= PARTS_MOST; parts++) {
    let isMore = false
    const all = parts * (parts + 1)
    const rounded = units.map((amount) => {
      const isWhole = ((parts + 1) * amount) % level === 0
      const whole = Math.floor(((parts + 1) * amount) / level)
      const weight = (isWhole ? parts : parts + 1) * whole
      isMore ||= weight * level > all * amount
      return weight
    })
    if (isMore)
      list.push(
        supplyOf(
          work,
          rounded,
          levels.map(() => all),
        ),
      )
  }
  return list
}

/**
 * Weighted so that all of the one counts as much as all of the other.
 * @returns null where no mode holds both
 */
export function combinedSupply(work: NeededWork, one: Supply, other: Supply): Supply | null {
  const product = one.levelMost * other.levelMost
  if (product <= 0 || product > PRODUCT_MOST) return null
  if (!one.units.some((amount, mode) => amount > 0 && other.units[mode]! > 0)) return null
  return supplyOf(
    work,
    one.units.map((amount, mode) => other.levelMost * amount + one.levelMost * other.units[mode]!),
    one.levels.map((level, tick) => other.levelMost * level + one.levelMost * other.levels[tick]!),
  )
}
