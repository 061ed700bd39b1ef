/** Every pair of hands that is on duty in a window: named people, and the unnamed hands of a shift one by one. */
import { type HalfOpenInterval, overlaps, unionOf } from '../../domain/half-open-interval.ts'
import type { LaneId } from '../../domain/ids.ts'
import type { Shift } from '../../domain/shift.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { Skill } from '../../domain/units.ts'
import { weeklyIntervals } from './weekly-intervals.ts'

export interface LaneOnDuty {
  readonly laneId: LaneId
  readonly skills: readonly Skill[]
  readonly adult: boolean
  /** Disjoint, in order of time. */
  readonly onDuty: readonly HalfOpenInterval[]
}

/** @returns in order of lane id; only lanes with some time on duty in the window */
export function lanesOnDuty(
  setup: Pick<SiteSetup, 'site' | 'shifts' | 'people'>,
  window: HalfOpenInterval,
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
      lanes.set(laneId, { laneId, skills: person.skills, adult: person.adult, onDuty })
    } else {
      for (let hand = 1; hand <= crew.hands; hand += 1) {
        const laneId = `${shift.id}#${hand}` as LaneId
        lanes.set(laneId, { laneId, skills: crew.skills, adult: crew.adults, onDuty: unionOf(times) })
      }
    }
  }
  return [...lanes.values()].sort((a, b) => (a.laneId < b.laneId ? -1 : a.laneId > b.laneId ? 1 : 0))
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
    },
    zone,
    window,
  )
}
