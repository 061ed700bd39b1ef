/** What a shift is added with, and the shift it becomes. */
import { z } from 'zod'
import { Shift, ShiftCrew, ShiftTimes } from '../../domain/shift.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { InstantReader, InstantText } from '../instant-text.ts'
import { repeated, unknownIds } from '../known-ids.ts'
import { bodyFault, type Fault, refuseFaults } from '../problems.ts'

const [OnceTimes, WeeklyTimes] = ShiftTimes.options
const [PersonCrew, HandsCrew] = ShiftCrew.options

export const ShiftBody = z.strictObject({
  name: Shift.shape.name,
  crew: z.discriminatedUnion('kind', [
    z.strictObject(PersonCrew.shape),
    z.strictObject({ ...HandsCrew.shape, skills: HandsCrew.shape.skills.default([]) }),
  ]),
  times: z.discriminatedUnion('kind', [
    z.strictObject({ kind: OnceTimes.shape.kind, startsAt: InstantText, endsAt: InstantText }),
    z.strictObject({ ...WeeklyTimes.shape, lastDate: WeeklyTimes.shape.lastDate.default(null) }),
  ]),
})
export type ShiftBody = z.infer<typeof ShiftBody>
type Times = ShiftBody['times']

/** @throws Problem invalid-input */
export function shiftFrom(body: ShiftBody, id: string, { site, people }: SiteSetup): Shift {
  const reader = new InstantReader(site.zone, 'body')
  const times = timesFrom(body.times, reader)
  refuseFaults([
    ...reader.faults,
    ...timesFaults(times),
    ...(body.crew.kind === 'person'
      ? unknownIds(() => '/crew/personId', [body.crew.personId], people, 'person')
      : []),
  ])
  return Shift.parse({ name: body.name, crew: body.crew, times, id, siteId: site.id })
}

function timesFrom(times: Times, reader: InstantReader) {
  if (times.kind === 'weekly') return times
  const startsAt = reader.read('/times/startsAt', times.startsAt)
  const endsAt = reader.read('/times/endsAt', times.endsAt)
  return { kind: times.kind, startsAt, endsAt }
}

function timesFaults(times: ReturnType<typeof timesFrom>): Fault[] {
  if (times.kind === 'once') {
    const { startsAt, endsAt } = times
    const ends = startsAt === null || endsAt === null || startsAt < endsAt
    return ends ? [] : [bodyFault('/times/endsAt', 'the shift must end after it starts')]
  }
  const { firstDate, lastDate, weekdays } = times
  const lasts = lastDate === null || firstDate <= lastDate
  return [
    ...(lasts ? [] : [bodyFault('/times/lastDate', 'the last day must not be before the first')]),
    ...repeated((index) => `/times/weekdays/${index}`, weekdays.map(String), 'weekday'),
    ...(['firstDate', 'lastDate'] as const).flatMap((name) => {
      const date = times[name]
      const year = date === null ? 2000 : Number(date.slice(0, 4))
      return year >= 2000 && year <= 2099
        ? []
        : [bodyFault(`/times/${name}`, `the year ${year} is outside 2000 to 2099`)]
    }),
  ]
}
