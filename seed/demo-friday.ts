/** The Friday the demo is built around, so that it is always this week: today until noon, else the next one. */
import type { Instant } from '../src/domain/instant.ts'
import type { LocalDate } from '../src/domain/units.ts'
import { dateAfter, localDateOf, localTimeOf, weekdayOf } from '../src/scheduler/timeline/wall-time.ts'

const FRIDAY = 5

export function demoFriday(now: Instant, zone: string): LocalDate {
  const today = localDateOf(now, zone)
  const days = (FRIDAY - weekdayOf(today) + 7) % 7
  const isTooLate = days === 0 && localTimeOf(now, zone) >= '12:00'
  return dateAfter(today, isTooLate ? 7 : days)
}
