/** Spans of time in which there is less of something than is wanted. */
import type { HalfOpenInterval } from '../../domain/half-open-interval.ts'
import type { Instant } from '../../domain/instant.ts'

/** A change that holds for a time; `toAt` null: until further notice. */
export interface Lasting {
  readonly fromAt: Instant
  readonly toAt: Instant | null
}

/** As long as it lasts; it began now, or earlier, when `fromAt` is now. */
export interface Shortage extends Lasting {
  /** The least there is in that time, and from when on there is so little. */
  readonly least: number
  readonly leastAt: Instant
  /** There is as much all the time. */
  readonly isEven: boolean
}

export const holdsAt = ({ fromAt, toAt }: Lasting, at: Instant): boolean =>
  fromAt <= at && (toAt === null || at < toAt)

export const isOver = ({ toAt }: Lasting, now: Instant): boolean => toAt !== null && toAt <= now

export const meets = ({ fromAt, toAt }: Lasting, span: HalfOpenInterval): boolean =>
  fromAt < span.toAt && (toAt === null || span.fromAt < toAt)

/** How many there are from a moment on, until the next one. */
export interface CountFrom {
  readonly at: Instant
  readonly count: number
}

/**
 * @param changes  what the count follows from, in any order; it changes when one of them begins or ends
 * @returns from now on, in order of time; at least one, the first of them now
 */
export function countsFromNow(
  changes: readonly Lasting[],
  now: Instant,
  countAt: (at: Instant) => number,
): CountFrom[] {
  const moments = new Set(changes.flatMap(({ fromAt, toAt }) => (toAt === null ? [fromAt] : [fromAt, toAt])))
  const later = [...moments].filter((moment) => moment > now).sort((a, b) => a - b)
  return [now, ...later].map((at) => ({ at, count: countAt(at) }))
}

/**
 * @param wanted  so many or more are enough
 * @returns in order of time, none meeting another; none where there are always enough
 */
export function shortages(wanted: number, counts: readonly CountFrom[]): Shortage[] {
  const found: Shortage[] = []
  let isShort = false
  for (const { at, count } of counts) {
    const before = isShort ? found.pop() : undefined
    isShort = count < wanted
    if (before) found.push(isShort ? goingOn(before, count, at) : { ...before, toAt: at })
    else if (isShort) found.push({ fromAt: at, toAt: null, least: count, leastAt: at, isEven: true })
  }
  return found
}

function goingOn(shortage: Shortage, count: number, at: Instant): Shortage {
  if (count === shortage.least) return shortage
  return count < shortage.least
    ? { ...shortage, isEven: false, least: count, leastAt: at }
    : { ...shortage, isEven: false }
}

/** The least there is at any time of a span that ends after now. */
export function leastDuring({ fromAt, toAt }: HalfOpenInterval, counts: readonly CountFrom[]): number {
  let least = Number.POSITIVE_INFINITY
  for (const [index, { at, count }] of counts.entries()) {
    const endsAt = counts[index + 1]?.at ?? Number.POSITIVE_INFINITY
    if (at < toAt && fromAt < endsAt) least = Math.min(least, count)
  }
  return least
}
