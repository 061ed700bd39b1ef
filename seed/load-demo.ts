/**
 * Puts the demo into an empty database: the set-up in one write, then each booking decided like any request, so
 * that what is accepted carries its plan and what does not fit is refused for the reason a user would get.
 */
import { z } from 'zod'
import { defaultPolicy } from '../src/api/policies/default-policy.ts'
import { Booking } from '../src/domain/booking.ts'
import { Closure } from '../src/domain/closure.ts'
import type { DecisionAnswer } from '../src/domain/decision.ts'
import { Equipment } from '../src/domain/equipment.ts'
import { Furnishing } from '../src/domain/furnishing.ts'
import { ActorId, PolicyId, type SiteId } from '../src/domain/ids.ts'
import type { Instant } from '../src/domain/instant.ts'
import { Layout } from '../src/domain/layout.ts'
import type { Operation } from '../src/domain/operation.ts'
import { Person, PersonDetails } from '../src/domain/person.ts'
import { Room } from '../src/domain/room.ts'
import { Section } from '../src/domain/section.ts'
import { Shift } from '../src/domain/shift.ts'
import { Site } from '../src/domain/site.ts'
import { StoragePlace } from '../src/domain/storage-place.ts'
import { dateAfter, instantOfLocal } from '../src/scheduler/timeline/wall-time.ts'
import type { SetupAddition, Store } from '../src/store/store.ts'
import type { Decider } from '../src/worker/decider.ts'
import { demoFriday } from './demo-friday.ts'
import * as demo from './demo-site.ts'

export interface LoadedBooking {
  readonly booking: Booking
  readonly decision: DecisionAnswer
}
export interface LoadedDemo {
  readonly site: Site
  readonly bookings: readonly LoadedBooking[]
}

const demoActor = ActorId.parse('actor_demo')

/** @param store  without the demo site @throws ZodError when the demo's data is not valid */
export async function loadDemo(store: Store, decider: Decider, now: Instant): Promise<LoadedDemo> {
  const site = Site.parse(demo.site)
  await store.commit({
    siteId: site.id,
    planningVersionExpected: null,
    actorId: demoActor,
    action: 'load-demo',
    reason: null,
    at: now,
    site,
    setup: setupOf(site.id),
    personDetails: z.array(PersonDetails).parse(demo.personDetails),
  })
  const friday = demoFriday(now, site.zone)
  const at = (day: number, local: string) => instantOfLocal(site.zone, dateAfter(friday, day), local)
  for (const { from, to, ...closure } of demo.closures) {
    const row = { ...closure, siteId: site.id, fromAt: at(from.day, from.local), toAt: at(to.day, to.local) }
    await decided(store, decider, site.id, now, { kind: 'close', closure: Closure.parse(row) })
  }
  const bookings: LoadedBooking[] = []
  for (const [index, asked] of demo.bookings.entries()) {
    const name = `demo-${index + 1}`
    const booking = Booking.parse({
      id: `booking_${name}`,
      turnId: `turn_${name}`,
      siteId: site.id,
      title: asked.title,
      roomId: `room_${asked.room}`,
      layoutId: `layout_${asked.layout}`,
      headcount: asked.headcount,
      doorsAt: at(asked.day, asked.doors),
      startsAt: at(asked.day, asked.starts),
      endsAt: at(asked.day, asked.ends),
      clearAt: at(asked.day, asked.clear),
      foodServed: asked.layout.endsWith('banquet'),
      floorWet: false,
      status: 'CONFIRMED',
      version: 1,
    })
    bookings.push({
      booking,
      decision: await decided(store, decider, site.id, now, { kind: 'book', booking }),
    })
  }
  return { site, bookings }
}

function setupOf(siteId: SiteId): SetupAddition[] {
  const rows = <Row>(schema: z.ZodType<Row>, plain: readonly object[]): Row[] =>
    plain.map((row) => schema.parse({ ...row, siteId }))
  return [
    { kind: 'policy', row: defaultPolicy(PolicyId.parse('policy_demo'), siteId) },
    ...rows(Section, demo.sections).map((row) => ({ kind: 'section', row }) as const),
    ...rows(Room, demo.rooms).map((row) => ({ kind: 'room', row }) as const),
    ...rows(StoragePlace, demo.storagePlaces).map((row) => ({ kind: 'storagePlace', row }) as const),
    ...rows(Furnishing, demo.furnishings).map((row) => ({ kind: 'furnishing', row }) as const),
    ...rows(Equipment, demo.equipment).map((row) => ({ kind: 'equipment', row }) as const),
    ...rows(Layout, demo.layouts).map((row) => ({ kind: 'layout', row }) as const),
    ...rows(Person, demo.people).map((row) => ({ kind: 'person', row }) as const),
    ...rows(Shift, demo.shifts).map((row) => ({ kind: 'shift', row }) as const),
  ]
}

async function decided(
  store: Store,
  decider: Decider,
  siteId: SiteId,
  now: Instant,
  operation: Operation,
): Promise<DecisionAnswer> {
  const answer = await decider.decide({ siteId, operations: [operation], now })
  if (answer.kind !== 'decided') throw new Error(`the demo cannot be decided on: ${JSON.stringify(answer)}`)
  const { changes, ...decision } = answer.decision
  if (changes) {
    await store.commit({
      siteId,
      planningVersionExpected: answer.planningVersion,
      actorId: demoActor,
      action: operation.kind,
      reason: null,
      at: now,
      changes,
    })
  }
  return decision
}
