/** Every pair of hands that is on duty in a window: named people, and the unnamed hands of a shift one by one. */
import { type HalfOpenInterval, overlaps, unionOf } from '../../domain/half-open-interval.ts'
import type { LaneId } from '../../domain/ids.ts'
import { earlierOf } from '../../domain/instant.ts'
import type { Person } from '../../domain/person.ts'
import type { Shift } from '../../domain/shift.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { LocalDate, Skill } from '../../domain/units.ts'
import { dateAfter, instantOfLocal, localDateOf } from './wall-time.ts'
import { weeklyIntervals } from './weekly-intervals.ts'

export interface LaneOnDuty {
  readonly laneId: LaneId
  readonly skills: readonly Skill[]
  readonly adult: boolean
  /** On a shift that is paid. */
  readonly paid: boolean
  /** One of the crew: only those lead others and do what is not chairs and tables. */
  readonly crew: boolean
  /** Disjoint, in order of time. */
  readonly onDuty: readonly HalfOpenInterval[]
}

/**
 * A person whose skills change from one day to another comes once for each stretch of days, with other times: within a
 * stretch the skills are the same.
 * @returns in order of lane id, then of time; only lanes with some time on duty in the window
 */
export function lanesOnDuty(
  setup: Pick<SiteSetup, 'site' | 'shifts' | 'people'>,
  window: HalfOpenInterval,
): LaneOnDuty[] {
  const peopleById = new Map<string, Person>(setup.people.map((person) => [person.id, person]))
  const lanes = new Map<LaneId, LaneOnDuty>()
  for (const shift of setup.shifts) {
    const times = dutyTimes(shift, setup.site.zone, window)
    if (times.length === 0) continue
    const crew = shift.crew
    if (crew.kind === 'person') {
      const person = peopleById.get(crew.personId)
      if (!person) continue
      const laneId = person.id as string as LaneId
      const onDuty = unionOf([...(lanes.get(laneId)?.onDuty ?? []), ...times])
      const paid = shift.paid || (lanes.get(laneId)?.paid ?? false)
      lanes.set(laneId, { laneId, skills: person.skills, adult: person.adult, paid, crew: true, onDuty })
    } else {
      for (let hand = 1; hand <= crew.hands; hand += 1) {
        const laneId = `${shift.id}#${hand}` as LaneId
        const { skills, adults: adult } = crew
        lanes.set(laneId, { laneId, skills, adult, paid: shift.paid, crew: true, onDuty: unionOf(times) })
      }
    }
  }
  return [...lanes.values()]
    .sort((a, b) => (a.laneId < b.laneId ? -1 : a.laneId > b.laneId ? 1 : 0))
    .flatMap((lane) => bySkills(lane, peopleById.get(lane.laneId), setup.site.zone))
}

/** Skills hold for whole days of the site; where they change, at midnight, the lane is cut in two. */
function bySkills(lane: LaneOnDuty, person: Person | undefined, zone: string): LaneOnDuty[] {
  if (!person || person.skillDates.length === 0) return [lane]
  const stretches: LaneOnDuty[] = []
  for (const duty of lane.onDuty) {
    for (const { date, fromAt, toAt } of daysOf(duty, zone)) {
      const skills = skillsOn(person, date)
      const last = stretches.at(-1)
      if (last && last.skills.join() === skills.join()) {
        stretches[stretches.length - 1] = { ...last, onDuty: unionOf([...last.onDuty, { fromAt, toAt }]) }
      } else stretches.push({ ...lane, skills, onDuty: [{ fromAt, toAt }] })
    }
  }
  return stretches
}

const skillsOn = ({ skills, skillDates }: Person, date: LocalDate): Skill[] =>
  skills.filter((skill) => {
    const dates = skillDates.filter((one) => one.skill === skill)
    return (
      dates.length === 0 ||
      dates.some(
        ({ firstDate, lastDate }) =>
          (firstDate === null || firstDate <= date) && (lastDate === null || lastDate >= date),
      )
    )
  })

/** A duty cut at each midnight. */
function daysOf(duty: HalfOpenInterval, zone: string): (HalfOpenInterval & { readonly date: LocalDate })[] {
  const days = []
  let date = localDateOf(duty.fromAt, zone)
  let { fromAt } = duty
  while (fromAt < duty.toAt) {
    const next = dateAfter(date, 1)
    const toAt = earlierOf(instantOfLocal(zone, next, '00:00'), duty.toAt)
    days.push({ date, fromAt, toAt })
    fromAt = toAt
    date = next
  }
  return days
}

function dutyTimes(shift: Shift, zone: string, window: HalfOpenInterval): HalfOpenInterval[] {
  const times = shift.times
  if (times.kind === 'once') {
    const interval = { fromAt: times.startsAt, toAt: times.endsAt }
    return overlaps(interval, window) ? [interval] : []
  }
  return weeklyIntervals(
    {
      weekdays: times.weekdays,
      fromLocal: times.startsLocal,
      toLocal: times.endsLocal,
      firstDate: times.firstDate,
      lastDate: times.lastDate,
      exceptions: times.exceptions.map((exception) => ({
        date: exception.date,
        times:
          exception.kind === 'off'
            ? null
            : { fromLocal: exception.startsLocal, toLocal: exception.endsLocal },
      })),
    },
    zone,
    window,
  )
}
