/** Whether a shift still comes, and whether it comes at all. */
import type { Shift } from '../../domain/shift.ts'
import type { LocalDate } from '../../domain/units.ts'
import { dateAfter, weekdayOf } from '../timeline/wall-time.ts'
import type { SetupReading } from './setup-reading.ts'

/** The last of it is past. A night shift of the last day counts as past with that day. */
export const shiftIsOver = ({ times }: Shift, { now, today }: SetupReading): boolean =>
  times.kind === 'once' ? times.endsAt <= now : times.lastDate !== null && times.lastDate < today

/** Every day of the pattern can be taken out by one of at most 400 exceptions: so many weeks show one that is not. */
const WEEKS_MOST = 401
/** Calendar days are written with four figures for the year. */
const LAST_DAY: LocalDate = '9999-12-31'

/** False for a weekly pattern without any day: none of its weekdays lies between its dates, or each is taken out. */
export function shiftHappens({ times }: Shift): boolean {
  if (times.kind === 'once') return times.startsAt < times.endsAt
  const off = new Set(times.exceptions.flatMap((one) => (one.kind === 'off' ? one.date : [])))
  let day: LocalDate = times.firstDate
  for (let days = 0; days < WEEKS_MOST * 7; days += 1) {
    if (times.lastDate !== null && day > times.lastDate) return false
    if (times.weekdays.includes(weekdayOf(day)) && !off.has(day)) return true
    if (day >= LAST_DAY) return false
    day = dateAfter(day, 1)
  }
  return false
}
