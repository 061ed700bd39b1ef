/** Seven days by the wall clock of a site, Monday first; a day of a clock change is an hour longer or shorter. */
import { DateTime } from 'luxon'
import type { HalfOpenInterval } from '../../domain/half-open-interval.ts'
import { Instant } from '../../domain/instant.ts'
import type { LocalDate } from '../../domain/units.ts'

export interface WeekDay extends HalfOpenInterval {
  readonly date: LocalDate
  /** `Fri 13 Nov` */
  readonly label: string
}

export interface Week {
  readonly monday: LocalDate
  readonly window: HalfOpenInterval
  readonly days: readonly WeekDay[]
}

/** The week that holds the date. @param date  within 2001 to 2098 */
export function weekOf(date: LocalDate, zone: string): Week {
  const monday = DateTime.fromISO(date, { zone }).startOf('week')
  const days = [0, 1, 2, 3, 4, 5, 6].map((number) => {
    const start = monday.plus({ days: number }).startOf('day')
    return {
      date: start.toFormat('yyyy-MM-dd'),
      label: start.setLocale('en').toFormat('ccc d LLL'),
      fromAt: Instant.parse(start.toMillis()),
      toAt: Instant.parse(start.plus({ days: 1 }).startOf('day').toMillis()),
    }
  })
  const [first, last] = [days[0]!, days[6]!]
  return { monday: first.date, window: { fromAt: first.fromAt, toAt: last.toAt }, days }
}
