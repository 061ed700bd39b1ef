/**
 * Who is on duty, remembered: a decision asks for the same span several times, and others soon after. It follows from
 * shifts, people and the span alone, so finding it here or working it out anew gives the same answer.
 */
import { type HalfOpenInterval, overlaps } from '../../domain/half-open-interval.ts'
import type { Instant } from '../../domain/instant.ts'
import type { Person } from '../../domain/person.ts'
import type { Shift } from '../../domain/shift.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { type LaneOnDuty, lanesOnDuty } from './lanes-on-duty.ts'

/** Rows of the set-up are never changed in place: other rows are another list. */
const remembered = new WeakMap<
  readonly Shift[],
  WeakMap<readonly Person[], Map<string, readonly LaneOnDuty[]>>
>()
/** When there are more, it begins anew. */
const REMEMBERED_MOST = 200
const DAY_MS = 86_400_000

export function rememberedLanes(
  setup: Pick<SiteSetup, 'site' | 'shifts' | 'people'>,
  span: HalfOpenInterval,
): readonly LaneOnDuty[] {
  const byPeople = remembered.get(setup.shifts) ?? new WeakMap()
  remembered.set(setup.shifts, byPeople)
  const bySpan: Map<string, readonly LaneOnDuty[]> = byPeople.get(setup.people) ?? new Map()
  byPeople.set(setup.people, bySpan)
  // By whole days, so that the turns of a day share what is found.
  const fromAt = (Math.floor(span.fromAt / DAY_MS) * DAY_MS) as Instant
  const toAt = (Math.ceil(span.toAt / DAY_MS) * DAY_MS) as Instant
  const key = `${setup.site.zone}/${fromAt}/${toAt}`
  const known = bySpan.get(key) ?? lanesOnDuty(setup, { fromAt, toAt })
  if (bySpan.size >= REMEMBERED_MOST) bySpan.clear()
  bySpan.set(key, known)
  const isInSpan = (duty: HalfOpenInterval) => overlaps(duty, span)
  // Mostly the span is one of a day, and all who are on duty that day are on duty in it.
  if (known.every(({ onDuty }) => onDuty.every(isInSpan))) return known
  return known.flatMap((lane) => {
    const onDuty = lane.onDuty.filter(isInSpan)
    return onDuty.length === 0 ? [] : [{ ...lane, onDuty }]
  })
}
