/**
 * Work needs so much of something (hands, hands with a skill, a resource) for so long; what is free of it, tick by tick,
 * has to add up to that. Asked of every set of activities that cannot begin before some tick and must be followed by
 * some time of further work: what is free between has to do for them.
 */
import type { FreeUnits } from './free-units.ts'

/** What one activity asks for: units × ticks at least, not before `head`, with `tail` ticks of work behind it. */
export interface EnergyNeed {
  readonly activity: number
  readonly amount: number
  readonly head: number
  readonly tail: number
}

/** null: what is free until the last tick does not add up. */
export interface EnergyBound {
  readonly readyTick: number | null
}

/** @returns the earliest tick by which everything asked for can be done; 0 when nothing is */
export function energyBound(needs: readonly EnergyNeed[], free: FreeUnits): EnergyBound {
  const asked = needs.filter((need) => need.amount > 0).sort((a, b) => b.tail - a.tail)
  let readyTick = 0
  for (const head of new Set(asked.map((need) => need.head))) {
    const bound = energyBoundFrom(head, asked, free)
    if (bound.readyTick === null) return bound
    readyTick = Math.max(readyTick, bound.readyTick)
  }
  return { readyTick }
}

/** Of what cannot begin before `head`: first what has the longest tail behind it, then ever more. */
function energyBoundFrom(
  head: number,
  longestTailFirst: readonly EnergyNeed[],
  free: FreeUnits,
): EnergyBound {
  const { ticks, units } = free
  let readyTick = 0
  let amount = 0
  // Free so far, up to `from`, which lies in span `at`.
  let sum = 0
  let at = 0
  let from = head
  for (const need of longestTailFirst) {
    if (need.head < head) continue
    amount += need.amount
    while (sum < amount) {
      if (at + 1 >= ticks.length) return { readyTick: null }
      from = Math.max(from, ticks[at]!)
      const spanUnits = Math.max(0, ticks[at + 1]! - from) * units[at]!
      if (sum + spanUnits >= amount) break
      sum += spanUnits
      at += 1
    }
    readyTick = Math.max(readyTick, from + Math.ceil((amount - sum) / units[at]!) + need.tail)
  }
  return { readyTick }
}
