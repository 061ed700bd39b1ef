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
}

/** A window longer than this is a mistake of the caller: about three years. */
const DAYS_MOST = 1_100

/** @returns those that touch the window, in order of time; empty ones (a night the clock swallows) left out */
export function weeklyIntervals(
  pattern: WeeklyPattern,
  zone: string,
  window: HalfOpenInterval,
): HalfOpenInterval[] {
  const overNight = pattern.toLocal <= pattern.fromLocal
  const lastDay = localDateOf(window.toAt, zone)
  const intervals: HalfOpenInterval[] = []
  // One day earlier, because what starts in the evening before may reach into the window.
  let day = dateAfter(localDateOf(window.fromAt, zone), -1)
  for (let days = 0; day <= lastDay; days += 1, day = dateAfter(day, 1)) {
    if (days > DAYS_MOST) throw new RangeError('the window is too long to lay out a weekly pattern in')
    if (!pattern.weekdays.includes(weekdayOf(day))) continue
    if (pattern.firstDate !== null && day < pattern.firstDate) continue
    if (pattern.lastDate !== null && day > pattern.lastDate) continue
    const interval = {
      fromAt: instantOfLocal(zone, day, pattern.fromLocal),
      toAt: instantOfLocal(zone, overNight ? dateAfter(day, 1) : day, pattern.toLocal),
    }
    if (interval.fromAt < interval.toAt && overlaps(interval, window)) intervals.push(interval)
  }
  return intervals
}
