/** From what was asked to the booking as it shall be: texts become moments, what is left out takes its default. */
import { Booking } from '../../domain/booking.ts'
import { BookingId, TurnId } from '../../domain/ids.ts'
import { type Instant, instantPlusSeconds } from '../../domain/instant.ts'
import type { Layout } from '../../domain/layout.ts'
import type { Site } from '../../domain/site.ts'
import type { ApiContext } from '../context.ts'
import { InstantReader } from '../instant-text.ts'
import { bodyFault, type Fault, refuseFaults } from '../problems.ts'
import type { BookingBody, BookingPatch } from './booking-body.ts'
import { boundaryFaults } from './boundary-faults.ts'

/** @throws Problem invalid-input */
export async function newBooking(context: ApiContext, site: Site, body: BookingBody): Promise<Booking> {
  const moments = momentsOf(site, body)
  const layout = await layoutFor(context, site, body)
  const boundaries = await boundariesFrom(context, layout, {
    doorsAt: moments.doorsAt ?? null,
    startsAt: moments.startsAt!,
    endsAt: moments.endsAt!,
    clearAt: moments.clearAt ?? null,
  })
  return Booking.parse({
    foodServed: layout.kind === 'banquet',
    floorWet: false,
    ...body,
    ...boundaries,
    id: BookingId.parse(context.newId('booking')),
    siteId: site.id,
    status: 'CONFIRMED',
    version: 1,
    turnId: TurnId.parse(context.newId('turn')),
  })
}

/** @throws Problem invalid-input */
export async function changedBooking(
  context: ApiContext,
  site: Site,
  booking: Booking,
  patch: BookingPatch,
): Promise<Booking> {
  const { doorsAt, startsAt, endsAt, clearAt } = { ...booking, ...momentsOf(site, patch) }
  const layout = await layoutFor(context, site, {
    roomId: patch.roomId ?? booking.roomId,
    layoutId: patch.layoutId ?? booking.layoutId,
  })
  const boundaries = await boundariesFrom(context, layout, { doorsAt, startsAt, endsAt, clearAt })
  return Booking.parse({ ...booking, ...patch, ...boundaries, version: booking.version + 1 })
}

type Wanted = Pick<Booking, 'startsAt' | 'endsAt'> & Record<'doorsAt' | 'clearAt', Instant | null>

/** Only the moments that were given; null where doors or clear shall follow the policy. */
function momentsOf(site: Site, body: BookingPatch): Partial<Wanted> {
  const reader = new InstantReader(site.zone, 'body')
  const moments: Partial<Wanted> = {}
  for (const name of ['doorsAt', 'startsAt', 'endsAt', 'clearAt'] as const) {
    const text = body[name]
    if (text === undefined) continue
    const moment = text === null ? null : reader.read(`/${name}`, text)
    if (moment !== null) moments[name] = moment
    else if (name === 'doorsAt' || name === 'clearAt') moments[name] = null
  }
  refuseFaults(reader.faults)
  return moments
}

async function layoutFor(
  { store }: ApiContext,
  site: Site,
  { roomId, layoutId }: Pick<Booking, 'roomId' | 'layoutId'>,
): Promise<Layout> {
  const room = await store.setupRow(site.id, 'room', roomId)
  const layout = await store.setupRow(site.id, 'layout', layoutId)
  const faults: Fault[] = []
  if (!room) faults.push(bodyFault('/roomId', `there is no room ${roomId} in this site`))
  if (!layout) faults.push(bodyFault('/layoutId', `there is no layout ${layoutId} in this site`))
  else if (room && layout.roomId !== room.id) {
    faults.push(
      bodyFault('/layoutId', `layout ${layout.name} is of another room; choose one of ${room.name}`),
    )
  }
  refuseFaults(faults)
  return layout!
}

async function boundariesFrom(context: ApiContext, layout: Layout, wanted: Wanted) {
  const { startsAt, endsAt } = wanted
  let { doorsAt, clearAt } = wanted
  if (doorsAt === null || clearAt === null) {
    const setup = await context.store.setupRows(layout.siteId, 'policy', { limit: 1, after: null })
    const boundary = setup.items[0]!.boundaries[layout.kind]
    doorsAt ??= instantPlusSeconds(startsAt, -boundary.doorsBeforeStartSeconds)
    clearAt ??= instantPlusSeconds(endsAt, boundary.clearAfterEndSeconds)
  }
  const boundaries = { doorsAt, startsAt, endsAt, clearAt }
  refuseFaults(boundaryFaults(boundaries))
  return boundaries
}
