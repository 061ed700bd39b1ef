/**
 * One rule for minutes and for the clock in sentences: what is needed is rounded up, what there is is rounded down; a
 * deadline is shown as the clock shows it, what is ready a minute later where seconds are left; and how far apart they
 * are is told from what is shown.
 */
import { earlierOf, type Instant } from '../../domain/instant.ts'

const MINUTE_MS = 60_000
/** Longer spans are told in hours. */
const MINUTES_MOST = 120

export const minutesUp = (seconds: number): number => Math.ceil(seconds / 60)
export const minutesDown = (seconds: number): number => Math.floor(seconds / 60)

/** `45 min`, `120 min`, and over two hours `3 h`, `3 h 20 min`. @param minutes  whole, 0 or more */
export function spanText(minutes: number): string {
  if (minutes <= MINUTES_MOST) return `${minutes} min`
  const hours = `${Math.floor(minutes / 60)} h`
  return minutes % 60 === 0 ? hours : `${hours} ${minutes % 60} min`
}

/** A time that is needed, in whole minutes. @param seconds  0 or more */
export const spanNeeded = (seconds: number): string => spanText(minutesUp(seconds))
/** A time that there is, in whole minutes. @param seconds  0 or more */
export const spanThere = (seconds: number): string => spanText(minutesDown(seconds))

/** When something is ready, as the clock shows it: never before it is. */
export const shownReadyAt = (readyAt: Instant): Instant =>
  (Math.ceil(readyAt / MINUTE_MS) * MINUTE_MS) as Instant

const shownByAt = (byAt: Instant): Instant => (Math.floor(byAt / MINUTE_MS) * MINUTE_MS) as Instant

export interface ShownBeside {
  readonly readyAt: Instant
  /** From the deadline as it is shown until then; negative: so much to spare. */
  readonly lateMinutes: number
}

/** Beside a deadline: what is late is shown later, by a minute or more, and what is in time is not shown late. */
export function shownBeside(readyAt: Instant, byAt: Instant): ShownBeside {
  const by = shownByAt(byAt)
  const ready = readyAt > byAt ? shownReadyAt(readyAt) : earlierOf(shownReadyAt(readyAt), by)
  return { readyAt: ready, lateMinutes: (ready - by) / MINUTE_MS }
}
