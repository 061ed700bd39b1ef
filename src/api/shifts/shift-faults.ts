/** What can be wrong with a shift beyond its shape. */
import { secondsBetween } from '../../domain/instant.ts'
import type { Shift } from '../../domain/shift.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { weekdayOf } from '../../scheduler/timeline/wall-time.ts'
import { repeated, unknownIds } from '../known-ids.ts'
import { adultSkillFaults } from '../people/person-faults.ts'
import { bodyFault, type Fault } from '../problems.ts'
import { yearFault } from '../setup/year-fault.ts'
import { type WeeklyTimes, weeklyClash } from './weekly-clash.ts'

const DAYS_MOST = 7

export const shiftFaults = (shift: Shift, setup: SiteSetup): Fault[] => [
  ...timesFaults(shift),
  ...crewFaults(shift, setup),
  ...clashFaults(shift, setup),
]

function crewFaults({ crew }: Shift, { people, policy }: SiteSetup): Fault[] {
  if (crew.kind === 'person') return unknownIds(() => '/crew/personId', [crew.personId], people, 'person')
  const at = (index: number) => `/crew/skills/${index}`
  return [
    ...repeated(at, crew.skills, 'skill'),
    ...(crew.adults ? [] : adultSkillFaults(at, crew.skills, policy.adultOnlySkills)),
  ]
}

function timesFaults({ times }: Shift): Fault[] {
  if (times.kind === 'weekly') return weeklyFaults(times)
  const { startsAt, endsAt } = times
  if (endsAt <= startsAt) return [bodyFault('/times/endsAt', 'the shift must end after it starts')]
  return secondsBetween(startsAt, endsAt) > DAYS_MOST * 86_400
    ? [bodyFault('/times/endsAt', `a shift may last ${DAYS_MOST} days; make several, or a weekly one`)]
    : []
}

const endsAtItsStart = 'it ends when it starts: nobody would be on duty, or for a whole day; give another end'

function weeklyFaults(times: WeeklyTimes): Fault[] {
  const { startsLocal, endsLocal, firstDate, lastDate, weekdays } = times
  const lasts = lastDate === null || firstDate <= lastDate
  return [
    ...(startsLocal === endsLocal ? [bodyFault('/times/endsLocal', endsAtItsStart)] : []),
    ...(lasts ? [] : [bodyFault('/times/lastDate', 'the last day must not be before the first')]),
    ...repeated((index) => `/times/weekdays/${index}`, weekdays.map(String), 'weekday'),
    ...yearFault('/times/firstDate', firstDate),
    ...yearFault('/times/lastDate', lastDate),
    ...exceptionFaults(times),
  ]
}

const weekdayNames = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday']

function exceptionFaults({ weekdays, firstDate, lastDate, exceptions }: WeeklyTimes): Fault[] {
  const dates = exceptions.map(({ date }) => date)
  return [
    ...repeated((index) => `/times/exceptions/${index}/date`, dates, 'day'),
    ...exceptions.flatMap((exception, index) => {
      const at = `/times/exceptions/${index}`
      const { date } = exception
      const weekday = weekdayOf(date)
      if (date < firstDate || (lastDate !== null && date > lastDate))
        return [bodyFault(`${at}/date`, `${date} is outside the days of the pattern`)]
      if (!weekdays.includes(weekday)) {
        const message = `${date} is a ${weekdayNames[weekday - 1]}, and the pattern has none: there is nothing to except`
        return [bodyFault(`${at}/date`, message)]
      }
      return exception.kind === 'other-times' && exception.startsLocal === exception.endsLocal
        ? [bodyFault(`${at}/endsLocal`, endsAtItsStart)]
        : []
    }),
  ]
}

/** The same person twice at the same time is one pair of hands that was counted on twice by whoever wrote it. */
function clashFaults({ id, crew, times }: Shift, { shifts }: SiteSetup): Fault[] {
  if (crew.kind !== 'person' || times.kind !== 'weekly') return []
  return shifts.flatMap((other) => {
    const isSame = other.crew.kind === 'person' && other.crew.personId === crew.personId
    if (other.id === id || !isSame || other.times.kind !== 'weekly') return []
    const date = weeklyClash(times, other.times)
    if (date === null) return []
    const message = `on ${date} this person is on duty already by the shift ${other.name}; change one of the two, or make an exception`
    return [bodyFault('/times', message)]
  })
}
