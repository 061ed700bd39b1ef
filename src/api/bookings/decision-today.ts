/** How a booking stands: put together from stored judgements. Nothing is solved on a read. */
import { type Booking, isBlocking } from '../../domain/booking.ts'
import type { DecisionAnswer } from '../../domain/decision.ts'
import { homeTurnId } from '../../domain/home-turn-id.ts'
import type { SiteId, TurnId } from '../../domain/ids.ts'
import { Instant, LATEST_AT } from '../../domain/instant.ts'
import { reasonCodes, speaksAgainst } from '../../domain/reason.ts'
import type { Room } from '../../domain/room.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { Turn } from '../../domain/turn.ts'
import { answeredReason, seenFromBefore, turnBrief } from '../../scheduler/decide/index.ts'
import type { ApiContext } from '../context.ts'
import { bookingsNamed } from './bookings-named.ts'

export async function decisionToday(context: ApiContext, booking: Booking): Promise<DecisionAnswer> {
  const setup = await context.store.setup(booking.siteId)
  if (!setup) throw new Error(`the site ${booking.siteId} has no policy`)
  const before = isBlocking(booking) ? await turnThatStands(context, booking.turnId, booking.siteId) : null
  const after = isBlocking(booking)
    ? ((await turnThatStands(context, homeTurnId(booking.turnId), booking.siteId)) ??
      (await nextTurn(context, setup, booking)))
    : null
  const reasons = [
    ...(before?.judgement.reasons ?? []),
    // Of what comes next only what its turn lacks is this booking's business too.
    ...(after?.judgement.reasons ?? []).filter((reason) => 'side' in reason).map(seenFromBefore),
  ].sort((a, b) => reasonCodes.indexOf(a.code) - reasonCodes.indexOf(b.code))
  const named = await bookingsNamed(context.store, booking.siteId, reasons)
  return {
    verdict: reasons.some(speaksAgainst) ? 'does-not-fit' : reasons.length > 0 ? 'tight' : 'fits',
    reasons: reasons.map((reason) => answeredReason(reason, setup, named)),
    before: before && turnBrief(before),
    after: after && turnBrief(after),
    affected: [],
    alternatives: [...(before?.judgement.waysOut ?? [])],
  }
}

async function turnThatStands({ store }: ApiContext, turnId: TurnId, siteId: SiteId): Promise<Turn | null> {
  const turn = await store.turn(siteId, turnId)
  return turn && turn.status !== 'dropped' ? turn : null
}

/** The first turn in one of the booking's sections that starts from what the booking leaves. */
async function nextTurn(context: ApiContext, setup: SiteSetup, booking: Booking): Promise<Turn | null> {
  const room = setup.rooms.find(({ id }) => id === booking.roomId)
  const followers: Turn[] = []
  for (const other of setup.rooms.filter(({ sectionIds }) =>
    room?.sectionIds.some((id) => sectionIds.includes(id)),
  )) {
    const next = await nextBooking(context, other, booking)
    const turn = next && (await turnThatStands(context, next.turnId, next.siteId))
    if (turn?.predecessorBookingIds.includes(booking.id)) followers.push(turn)
  }
  return followers.sort((a, b) => a.dueAt - b.dueAt || (a.id < b.id ? -1 : 1))[0] ?? null
}

/** So many pages of cancelled bookings are passed over before we hold that nothing follows. */
const PAGES_MOST = 10

async function nextBooking({ store }: ApiContext, room: Room, booking: Booking): Promise<Booking | null> {
  const window = { fromAt: booking.clearAt, toAt: Instant.parse(LATEST_AT) }
  let after: string | null = null
  for (let page = 1; page <= PAGES_MOST; page++) {
    const found = await store.bookings(booking.siteId, window, { roomId: room.id }, { limit: 20, after })
    const next = found.items.find((other) => isBlocking(other) && other.doorsAt >= booking.clearAt)
    if (next || found.nextAfter === null) return next ?? null
    after = found.nextAfter
  }
  return null
}
