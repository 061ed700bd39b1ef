/** Whether two weekly patterns ever meet. */
import type { ShiftTimes } from '../../domain/shift.ts'
import type { LocalDate, LocalTime } from '../../domain/units.ts'
import { dateAfter, weekdayOf } from '../../scheduler/timeline/wall-time.ts'

export type WeeklyTimes = Extract<ShiftTimes, { kind: 'weekly' }>

const DAY_MINUTES = 1440

/**
 * By the wall clock: what meets by it meets whatever the clocks do that night. End to start is no meeting.
 * @returns the first day found on which the first pattern meets the other; null: they never do
 */
export function weeklyClash(one: WeeklyTimes, other: WeeklyTimes): LocalDate | null {
  const dutyOfOne = dutyByDate(one)
  const dutyOfOther = dutyByDate(other)
  for (const date of daysToLookAt(one, other)) {
    const duty = dutyOfOne(date)
    if (!duty) continue
    for (const shift of [-1, 0, 1]) {
      const against = dutyOfOther(dateAfter(date, shift))
      if (!against) continue
      const from = against.from + shift * DAY_MINUTES
      const to = against.to + shift * DAY_MINUTES
      if (duty.from < to && from < duty.to) return date
    }
  }
  return null
}

/** In order; a day more on either side, as a night reaches into the next day. */
function daysToLookAt(one: WeeklyTimes, other: WeeklyTimes): LocalDate[] {
  const firstDate = dateAfter(later(one.firstDate, other.firstDate), -1)
  const lastDates = [one.lastDate, other.lastDate].filter((date) => date !== null).sort()
  const lastDate = lastDates[0] === undefined ? null : dateAfter(lastDates[0], 1)
  const days = new Set<LocalDate>()
  // Patterns repeat every week, and exceptions hide that for no more weeks than there are of them: at most 800. The
  // days of the exceptions themselves are looked at besides.
  const weeks = one.exceptions.length + other.exceptions.length + 2
  let day = firstDate
  for (let count = 0; count < weeks * 7 && (lastDate === null || day <= lastDate); count += 1) {
    days.add(day)
    day = dateAfter(day, 1)
  }
  for (const { date } of [...one.exceptions, ...other.exceptions]) {
    for (const shift of [-1, 0, 1]) days.add(dateAfter(date, shift))
  }
  return [...days].sort()
}

interface Duty {
  readonly from: number
  readonly to: number
}

/** Minutes of the day on which it begins; null: no duty begins on that day. */
function dutyByDate(times: WeeklyTimes): (date: LocalDate) => Duty | null {
  const exceptionsByDate = new Map(times.exceptions.map((exception) => [exception.date, exception]))
  const usual = dutyOf(times.startsLocal, times.endsLocal)
  return (date) => {
    if (date < times.firstDate || (times.lastDate !== null && date > times.lastDate)) return null
    if (!times.weekdays.includes(weekdayOf(date))) return null
    const exception = exceptionsByDate.get(date)
    if (!exception) return usual
    return exception.kind === 'off' ? null : dutyOf(exception.startsLocal, exception.endsLocal)
  }
}

function dutyOf(startsLocal: LocalTime, endsLocal: LocalTime): Duty {
  const from = minutesOf(startsLocal)
  const to = minutesOf(endsLocal)
  return { from, to: to > from ? to : to + DAY_MINUTES }
}

const minutesOf = (local: LocalTime): number => Number(local.slice(0, 2)) * 60 + Number(local.slice(3, 5))

const later = (a: LocalDate, b: LocalDate): LocalDate => (a >= b ? a : b)
