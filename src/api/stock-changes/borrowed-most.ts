/** The most pieces that are borrowed at one time, now or later. */
import { type Instant, laterOf } from '../../domain/instant.ts'
import type { StockChange } from '../../domain/stock-change.ts'
import { holdsAt, thingOf } from './stock-change-faults.ts'

/** @returns 0 where nothing is borrowed, or everything has gone back by now */
export function borrowedMost(changes: readonly StockChange[], thingId: string, now: Instant): number {
  const known = kept.get(changes)
  if (known?.now === now) return known.most.get(thingId) ?? 0
  const most = mostByThing(changes, now)
  kept.set(changes, { now, most })
  return most.get(thingId) ?? 0
}

/** A document with thousands of loans may have thousands of layouts that ask. */
const kept = new WeakMap<
  readonly StockChange[],
  { readonly now: Instant; readonly most: ReadonlyMap<string, number> }
>()

function mostByThing(changes: readonly StockChange[], now: Instant): ReadonlyMap<string, number> {
  const steps: { thingId: string; moment: Instant; count: number }[] = []
  for (const change of changes) {
    const { of, why, fromAt, toAt } = change
    const moment = laterOf(fromAt, now)
    if (why !== 'borrowed' || of.kind === 'equipment' || !holdsAt(change, moment)) continue
    const thingId = thingOf(of)
    steps.push({ thingId, moment, count: of.count })
    if (toAt !== null) steps.push({ thingId, moment: toAt, count: -of.count })
  }
  // What goes back at a moment is gone when the next loan begins: spans are half open.
  steps.sort((a, b) => a.moment - b.moment || a.count - b.count)
  const counts = new Map<string, number>()
  const most = new Map<string, number>()
  for (const { thingId, count } of steps) {
    const there = (counts.get(thingId) ?? 0) + count
    counts.set(thingId, there)
    most.set(thingId, Math.max(most.get(thingId) ?? 0, there))
  }
  return most
}
