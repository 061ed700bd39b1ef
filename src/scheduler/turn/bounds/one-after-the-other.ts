/** Two pieces of work that cannot go on at once, whatever modes they are left with: one waits for the other. */
import type { NeededWork } from './needed-work.ts'
import type { Supply } from './supply.ts'
import type { Windows } from './windows.ts'

/** Where only one order fits in, it is kept. @returns false where neither does */
export function ordersHold(work: NeededWork, supplies: readonly Supply[], windows: Windows): boolean {
  const { count, spanTicks } = work
  const { headsFromStart, headsFromEnd, leastTicks, isChanged } = windows
  for (let one = 0; one < count; one++) {
    const ticks = leastTicks[one]!
    if (ticks === 0) continue
    for (let other = 0; other < count; other++) {
      const otherTicks = leastTicks[other]!
      if (other === one || otherTicks === 0) continue
      if (headsFromStart[one]! + ticks + otherTicks + headsFromEnd[other]! <= spanTicks) continue
      const soonest = headsFromStart[other]! + otherTicks
      const soonestFromEnd = headsFromEnd[one]! + ticks
      if (soonest <= headsFromStart[one]! && soonestFromEnd <= headsFromEnd[other]!) continue
      if (!areApart(count, supplies, windows, one, other)) continue
      headsFromStart[one] = Math.max(headsFromStart[one]!, soonest)
      headsFromEnd[other] = Math.max(headsFromEnd[other]!, soonestFromEnd)
      isChanged[one] = 1
      isChanged[other] = 1
      if (headsFromStart[one]! + ticks + headsFromEnd[one]! > spanTicks) return false
      if (headsFromStart[other]! + otherTicks + headsFromEnd[other]! > spanTicks) return false
    }
  }
  return true
}

/** Together they hold more of a supply than there ever is. */
function areApart(
  count: number,
  supplies: readonly Supply[],
  { leastUnits }: Windows,
  one: number,
  other: number,
): boolean {
  for (let index = 0; index < supplies.length; index++) {
    const held = leastUnits[index * count + one]! + leastUnits[index * count + other]!
    if (held > supplies[index]!.levelMost) return true
  }
  return false
}
