/** Every pair of hands that is on duty in a window: named people, and the unnamed hands of a shift one by one. */
import { type HalfOpenInterval, overlaps, unionOf } from '../../domain/half-open-interval.ts'
import type { LaneId } from '../../domain/ids.ts'
import type { Person } from '../../domain/person.ts'
import type { Shift } from '../../domain/shift.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { Skill } from '../../domain/units.ts'
import { localDateOf } from './wall-time.ts'
import { weeklyIntervals } from './weekly-intervals.ts'

export interface LaneOnDuty {
  readonly laneId: LaneId
  readonly skills: readonly Skill[]
  readonly adult: boolean
  /** Disjoint, in order of time. */
  readonly onDuty: readonly HalfOpenInterval[]
}

/**
 * @param skillsIn  the span in which a skill must hold to count
 * @returns in order of lane id; only lanes with some time on duty in the window
 */
export function lanesOnDuty(
  setup: Pick<SiteSetup, 'site' | 'shifts' | 'people'>,
  window: HalfOpenInterval,
  skillsIn: HalfOpenInterval = window,
): LaneOnDuty[] {
  const peopleById = new Map(setup.people.map((person) => [person.id, person]))
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
      const skills = skillsHeld(person, setup.site.zone, skillsIn)
      lanes.set(laneId, { laneId, skills, adult: person.adult, onDuty })
    } else {
      for (let hand = 1; hand <= crew.hands; hand += 1) {
        const laneId = `${shift.id}#${hand}` as LaneId
        lanes.set(laneId, { laneId, skills: crew.skills, adult: crew.adults, onDuty: unionOf(times) })
      }
    }
  }
  return [...lanes.values()].sort((a, b) => (a.laneId < b.laneId ? -1 : a.laneId > b.laneId ? 1 : 0))
}

/**
 * Those that hold from the first day of the span to its last. One that begins or ends within it does not count: a lane
 * has the same skills from end to end, and a skill that may be missing is not promised.
 */
function skillsHeld({ skills, skillDates }: Person, zone: string, span: HalfOpenInterval): readonly Skill[] {
  if (skillDates.length === 0) return skills
  const first = localDateOf(span.fromAt, zone)
  const last = localDateOf(span.toAt, zone)
  return skills.filter((skill) => {
    const dates = skillDates.filter((one) => one.skill === skill)
    return (
      dates.length === 0 ||
      dates.some(
        ({ firstDate, lastDate }) =>
          (firstDate === null || firstDate <= first) && (lastDate === null || lastDate >= last),
      )
    )
  })
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
