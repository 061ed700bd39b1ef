/** From what was asked to the booking as it shall be: texts become moments, what is left out takes its default. */
import { isDeepStrictEqual } from 'node:util'
import { Booking } from '../../domain/booking.ts'
import { type ActorId, BookingId, TurnId } from '../../domain/ids.ts'
import { type Instant, instantPlusSeconds } from '../../domain/instant.ts'
import type { Layout } from '../../domain/layout.ts'
import type { Site } from '../../domain/site.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { ApiContext } from '../context.ts'
import { unknownIds } from '../known-ids.ts'
import { bodyFault, Problem, refuseFaults } from '../problems.ts'
import type { BookingBody, BookingPatch } from './booking-body.ts'
import { boundaryFaults } from './boundary-faults.ts'
import { holdFaults } from './hold-faults.ts'
import { boundariesAlong, termsAlong } from './moved-along.ts'
import { type NamedMoments, namedMoments } from './named-moments.ts'
import { termFaults } from './term-faults.ts'

/**
 * @param actorId  who asks, and so takes the risk where one is taken
 * @throws Problem invalid-input
 */
export async function newBooking(
  context: ApiContext,
  site: Site,
  actorId: ActorId,
  body: BookingBody,
): Promise<Booking> {
  const now = context.clock()
  const { boundaries: named, terms, holdExpiresAt } = namedMoments(site, body)
  const setup = await setupOf(context, site)
  const layout = layoutFor(setup, body)
  const boundaries = boundariesFrom(setup, layout, {
    doorsAt: named.doorsAt ?? null,
    startsAt: named.startsAt!,
    endsAt: named.endsAt!,
    clearAt: named.clearAt ?? null,
  })
  refuseFaults([
    ...termFaults({ crewDemands: [], milestones: [], ...boundaries, ...terms }),
    ...holdFaults({ ...boundaries, holdExpiresAt }, now, true),
  ])
  return Booking.parse({
    foodServed: layout.kind === 'banquet',
    floorWet: false,
    quietNeeded: layout.kind === 'worship',
    ...body,
    ...boundaries,
    ...terms,
    id: BookingId.parse(context.newId('booking')),
    siteId: site.id,
    status: holdExpiresAt === null ? 'CONFIRMED' : 'TENTATIVE',
    holdExpiresAt,
    version: 1,
    turnId: TurnId.parse(context.newId('turn')),
    riskAccepted: riskTaken(actorId, body, now),
  })
}

/**
 * Doors that are not named keep their distance to a start that moves, and clear to an end that moves; so do demands and
 * milestones.
 * @param actorId  who asks, and so takes the risk where one is taken
 * @throws Problem invalid-input, not-a-hold
 */
export async function changedBooking(
  context: ApiContext,
  site: Site,
  actorId: ActorId,
  booking: Booking,
  patch: BookingPatch,
): Promise<Booking> {
  const now = context.clock()
  const named = namedMoments(site, patch)
  if (named.holdExpiresAt !== null && booking.status !== 'TENTATIVE') {
    const message = `${booking.title} is firm, and is not turned back into a hold.`
    throw new Problem('not-a-hold', `${message} Cancel it and hold the room anew.`)
  }
  const span = { startsAt: booking.startsAt, endsAt: booking.endsAt, ...named.boundaries }
  const setup = await setupOf(context, site)
  const place = { roomId: patch.roomId ?? booking.roomId, layoutId: patch.layoutId ?? booking.layoutId }
  const boundaries = boundariesFrom(setup, layoutFor(setup, place, booking), {
    ...boundariesAlong(booking, span),
    ...span,
  })
  const terms = { ...termsAlong(booking, span), ...named.terms }
  const holdExpiresAt = named.holdExpiresAt ?? booking.holdExpiresAt
  refuseFaults([
    ...termFaults({ ...boundaries, ...terms }),
    ...holdFaults({ ...boundaries, holdExpiresAt }, now, named.holdExpiresAt !== null),
  ])
  const changed = Booking.parse({
    ...booking,
    ...patch,
    ...boundaries,
    ...terms,
    holdExpiresAt,
    // Where clear is said anew, it is no longer so that they stay beyond it.
    overrunsUntilAt:
      patch.clearAt === undefined && boundaries.clearAt === booking.clearAt ? booking.overrunsUntilAt : null,
    version: booking.version + 1,
  })
  const risk = isAskedAsBefore(booking, changed) ? booking.riskAccepted : null
  return { ...changed, riskAccepted: riskTaken(actorId, patch, now) ?? risk }
}

const riskTaken = (
  actorId: ActorId,
  { takeRisk }: BookingPatch,
  acceptedAt: Instant,
): Booking['riskAccepted'] => (takeRisk ? { actorId, why: takeRisk.why, acceptedAt, reasons: [] } : null)

/** Whoever took the risk knew what was asked then; of anything else it must be said anew. */
function isAskedAsBefore(before: Booking, after: Booking): boolean {
  const { title, holdExpiresAt, version } = before
  return isDeepStrictEqual({ ...after, title, holdExpiresAt, version }, before)
}

async function setupOf({ store }: ApiContext, site: Site): Promise<SiteSetup> {
  const setup = await store.setup(site.id)
  if (!setup) throw new Error(`the site ${site.id} has no policy`)
  return setup
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

function boundariesFrom({ policy }: SiteSetup, layout: Layout, wanted: Required<NamedMoments['boundaries']>) {
  const { startsAt, endsAt } = wanted
  const byPolicy = policy.boundaries[layout.kind]
  const doorsAt = wanted.doorsAt ?? instantPlusSeconds(startsAt, -byPolicy.doorsBeforeStartSeconds)
  const clearAt = wanted.clearAt ?? instantPlusSeconds(endsAt, byPolicy.clearAfterEndSeconds)
  const boundaries = { doorsAt, startsAt, endsAt, clearAt }
  refuseFaults(boundaryFaults(boundaries))
  return boundaries
}
