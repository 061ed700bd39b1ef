/** When a weekly pattern of wall-clock times holds, as moments. */
import { type HalfOpenInterval, overlaps } from '../../domain/half-open-interval.ts'
import type { LocalDate, LocalTime } from '../../domain/units.ts'
import { dateAfter, instantOfLocal, localDateOf, weekdayOf } from './wall-time.ts'

export interface WeeklyPattern {
  readonly weekdays: readonly number[]
  readonly fromLocal: LocalTime
  /** At or before `fromLocal`: the next day. */
  readonly toLocal: LocalTime
  readonly firstDate: LocalDate | null
  readonly lastDate: LocalDate | null
  /** Days of the pattern that are other than it; a day that the pattern does not have is passed over. */
  readonly exceptions: readonly PatternException[]
}

/** Nothing on that day (null), or other times. */
export interface PatternException {
  readonly date: LocalDate
  readonly times: { readonly fromLocal: LocalTime; readonly toLocal: LocalTime } | null
}

/** A window longer than this is a mistake of the caller: about three years. */
const DAYS_MOST = 1_100

/** @returns those that touch the window, in order of time; empty ones (a night the clock swallows) left out */
export function weeklyIntervals(
  pattern: WeeklyPattern,
  zone: string,
  window: HalfOpenInterval,
): HalfOpenInterval[] {
  const exceptionsByDate = new Map(pattern.exceptions.map(({ date, times }) => [date, times]))
  const lastDay = localDateOf(window.toAt, zone)
  const intervals: HalfOpenInterval[] = []
  // One day earlier, because what starts in the evening before may reach into the window.
  let day = dateAfter(localDateOf(window.fromAt, zone), -1)
  for (let days = 0; day <= lastDay; days += 1, day = dateAfter(day, 1)) {
    if (days > DAYS_MOST) throw new RangeError('the window is too long to lay out a weekly pattern in')
    if (!pattern.weekdays.includes(weekdayOf(day))) continue
    if (pattern.firstDate !== null && day < pattern.firstDate) continue
    if (pattern.lastDate !== null && day > pattern.lastDate) continue
    const times = exceptionsByDate.has(day) ? exceptionsByDate.get(day) : pattern
    if (!times) continue
    const overNight = times.toLocal <= times.fromLocal
    const interval = {
      fromAt: instantOfLocal(zone, day, times.fromLocal),
      toAt: instantOfLocal(zone, overNight ? dateAfter(day, 1) : day, times.toLocal),
    }
    if (interval.fromAt < interval.toAt && overlaps(interval, window)) intervals.push(interval)
  }
  return intervals
}
