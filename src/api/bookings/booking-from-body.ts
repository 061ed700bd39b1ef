/** From what was asked to the booking as it shall be: texts become moments, what is left out takes its default. */
import { Booking } from '../../domain/booking.ts'
import { BookingId, TurnId } from '../../domain/ids.ts'
import { type Instant, instantPlusSeconds, secondsBetween } from '../../domain/instant.ts'
import type { Layout } from '../../domain/layout.ts'
import type { Site } from '../../domain/site.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { ApiContext } from '../context.ts'
import { InstantReader } from '../instant-text.ts'
import { unknownIds } from '../known-ids.ts'
import { bodyFault, refuseFaults } from '../problems.ts'
import type { BookingBody, BookingPatch } from './booking-body.ts'
import { boundaryFaults } from './boundary-faults.ts'

/** @throws Problem invalid-input */
export async function newBooking(context: ApiContext, site: Site, body: BookingBody): Promise<Booking> {
  const moments = momentsOf(site, body)
  const setup = await setupOf(context, site)
  const layout = layoutFor(setup, body)
  const boundaries = boundariesFrom(setup, layout, {
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

/**
 * Doors that are not named keep their distance to a start that moves, and clear to an end that moves.
 * @throws Problem invalid-input
 */
export async function changedBooking(
  context: ApiContext,
  site: Site,
  booking: Booking,
  patch: BookingPatch,
): Promise<Booking> {
  const moments = momentsOf(site, patch)
  const { startsAt, endsAt } = { ...booking, ...moments }
  const { doorsAt, clearAt } = {
    doorsAt: instantPlusSeconds(startsAt, secondsBetween(booking.startsAt, booking.doorsAt)),
    clearAt: instantPlusSeconds(endsAt, secondsBetween(booking.endsAt, booking.clearAt)),
    ...moments,
  }
  const setup = await setupOf(context, site)
  const place = { roomId: patch.roomId ?? booking.roomId, layoutId: patch.layoutId ?? booking.layoutId }
  const boundaries = boundariesFrom(setup, layoutFor(setup, place, booking), {
    doorsAt,
    startsAt,
    endsAt,
    clearAt,
  })
  return Booking.parse({ ...booking, ...patch, ...boundaries, version: booking.version + 1 })
}

async function setupOf({ store }: ApiContext, site: Site): Promise<SiteSetup> {
  const setup = await store.setup(site.id)
  if (!setup) throw new Error(`the site ${site.id} has no policy`)
  return setup
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

/** @param held  where the booking is already: there it may stay, even when that is out of use by now */
function layoutFor(
  setup: SiteSetup,
  { roomId, layoutId }: Pick<Booking, 'roomId' | 'layoutId'>,
  held?: Booking,
): Layout {
  const { retired } = setup
  const rooms = held ? [...setup.rooms, ...retired.rooms.filter(({ id }) => id === held.roomId)] : setup.rooms
  const layouts = held
    ? [...setup.layouts, ...retired.layouts.filter(({ id }) => id === held.layoutId)]
    : setup.layouts
  refuseFaults([
    ...unknownIds(() => '/roomId', [roomId], rooms, 'room', retired.rooms),
    ...unknownIds(() => '/layoutId', [layoutId], layouts, 'layout', retired.layouts),
  ])
  const room = rooms.find(({ id }) => id === roomId)!
  const layout = layouts.find(({ id }) => id === layoutId)!
  if (layout.roomId !== room.id) {
    const message = `layout ${layout.name} is of another room; choose one of ${room.name}`
    refuseFaults([bodyFault('/layoutId', message)])
  }
  return layout
}

function boundariesFrom({ policy }: SiteSetup, layout: Layout, wanted: Wanted) {
  const { startsAt, endsAt } = wanted
  const byPolicy = policy.boundaries[layout.kind]
  const doorsAt = wanted.doorsAt ?? instantPlusSeconds(startsAt, -byPolicy.doorsBeforeStartSeconds)
  const clearAt = wanted.clearAt ?? instantPlusSeconds(endsAt, byPolicy.clearAfterEndSeconds)
  const boundaries = { doorsAt, startsAt, endsAt, clearAt }
  refuseFaults(boundaryFaults(boundaries))
  return boundaries
}
