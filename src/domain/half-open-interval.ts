/** A span of time from `fromAt` until, not including, `toAt`: what ends at 18:00 and what starts at 18:00 do not meet. */
import { z } from 'zod'
import { Instant } from './instant.ts'

export const HalfOpenInterval = z.object({ fromAt: Instant, toAt: Instant })
export type HalfOpenInterval = z.infer<typeof HalfOpenInterval>

export const overlaps = (a: HalfOpenInterval, b: HalfOpenInterval): boolean =>
  a.fromAt < b.toAt && b.fromAt < a.toAt

export const covers = (outer: HalfOpenInterval, inner: HalfOpenInterval): boolean =>
  outer.fromAt <= inner.fromAt && inner.toAt <= outer.toAt

/** The same moments as few intervals in order: those that meet or overlap become one; empty ones vanish. */
export function unionOf(intervals: readonly HalfOpenInterval[]): HalfOpenInterval[] {
  const union: HalfOpenInterval[] = []
  const inOrder = [...intervals].filter((i) => i.fromAt < i.toAt).sort((a, b) => a.fromAt - b.fromAt)
  for (const interval of inOrder) {
    const last = union.at(-1)
    if (last && interval.fromAt <= last.toAt) {
      if (interval.toAt > last.toAt) last.toAt = interval.toAt
    } else {
      union.push({ ...interval })
    }
  }
  return union
}
