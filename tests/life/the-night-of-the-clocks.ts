/** A supper before and a service after the night in which the clocks change, with the night shift between them. */
import { z } from 'zod'
import type { LocalDate } from '../../src/domain/units.ts'
import { dateAfter } from '../../src/scheduler/timeline/wall-time.ts'
import type { Life } from './a-life.ts'

const Booked = z.object({ decision: z.object({ before: z.object({ staffedWindowSeconds: z.int() }) }) })

/**
 * @param saturday  the shift is on duty from 22:00 that day until 06:00 the next
 * @returns how long somebody is on duty between clear at 22:00 and doors at 06:00
 */
export async function staffedHoursOfNight({ service, hall }: Life, saturday: LocalDate): Promise<number> {
  const sunday = dateAfter(saturday, 1)
  const [rows, supper] = hall.layouts
  const post = async (body: object) =>
    Booked.parse((await service.post(`${hall.path}/bookings`, body).expect(201)).body)
  await post({
    title: 'Supper',
    roomId: supper?.roomId,
    layoutId: supper?.layoutId,
    headcount: 20,
    startsAt: `${saturday}T19:00`,
    endsAt: `${saturday}T21:45`,
    clearAt: `${saturday}T22:00`,
  })
  const { decision } = await post({
    title: 'Service',
    roomId: rows?.roomId,
    layoutId: rows?.layoutId,
    headcount: 20,
    doorsAt: `${sunday}T06:00`,
    startsAt: `${sunday}T06:30`,
    endsAt: `${sunday}T07:30`,
    takeRisk: { why: 'whoever knows the sound desk sleeps' },
  })
  return decision.before.staffedWindowSeconds / 3600
}
