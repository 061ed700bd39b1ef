/**
 * Of everything there is, what a decision is given: written from what SiteSnapshot promises, and shares no code with the
 * store. tests/life holds that the store loads the same.
 */
import { type Booking, isBlocking } from '../../../../src/domain/booking.ts'
import { type HalfOpenInterval, overlaps } from '../../../../src/domain/half-open-interval.ts'
import { homeTurnId } from '../../../../src/domain/home-turn-id.ts'
import type { Instant } from '../../../../src/domain/instant.ts'
import type { Operation } from '../../../../src/domain/operation.ts'
import type { SiteSnapshot } from '../../../../src/domain/snapshot.ts'
import type { Turn } from '../../../../src/domain/turn.ts'

const DAY_MS = 86_400_000
const byId = (a: { readonly id: string }, b: { readonly id: string }) => (a.id < b.id ? -1 : 1)

/** @param all  everything of the site */
export function seenAround(all: SiteSnapshot, window: HalfOpenInterval): SiteSnapshot {
  const live = all.bookings.filter(isBlocking).sort((a, b) => a.doorsAt - b.doorsAt || byId(a, b))
  const rooms = new Map([...all.retired.rooms, ...all.rooms].map((room) => [room.id, room]))
  const near = new Set<Booking>()
  const sectionsOf = ({ roomId }: Booking) => rooms.get(roomId)?.sectionIds ?? []
  /** Who came last in other sections that a device of its room stands in too. */
  const lastWithItsDevices = (booking: Booking): Booking[] => {
    const own = sectionsOf(booking)
    const others = all.equipment
      .filter(({ sectionIds }) => sectionIds.some((id) => own.includes(id)))
      .flatMap(({ sectionIds }) => sectionIds.filter((id) => !own.includes(id)))
    return others.flatMap(
      (id) =>
        live.findLast(
          (other) =>
            sectionsOf(other).includes(id) &&
            (other.doorsAt < booking.doorsAt || (other.doorsAt === booking.doorsAt && other.id < booking.id)),
        ) ?? [],
    )
  }
  for (const { id } of [...all.sections, ...all.retired.sections]) {
    const here = live.filter(({ roomId }) => rooms.get(roomId)?.sectionIds.includes(id))
    for (const booking of here) {
      if (booking.doorsAt >= window.fromAt && booking.doorsAt < window.toAt) near.add(booking)
    }
    const before = here.findLast(({ doorsAt }) => doorsAt < window.fromAt)
    const after = here.find(({ doorsAt }) => doorsAt >= window.toAt)
    for (const booking of [before, after]) if (booking) near.add(booking)
  }
  const beyond = [...near].filter(({ doorsAt }) => doorsAt >= window.toAt).flatMap(lastWithItsDevices)
  const spans = [
    { fromAt: window.fromAt, toAt: (window.toAt + DAY_MS) as Instant },
    ...[...near]
      .filter(({ doorsAt }) => doorsAt >= window.fromAt)
      .map(({ doorsAt, clearAt }) => ({
        fromAt: Math.max(window.fromAt, doorsAt - 2 * DAY_MS) as Instant,
        toAt: (clearAt + DAY_MS) as Instant,
      })),
  ]
  const isNear = (span: HalfOpenInterval) => spans.some((one) => overlaps(one, span))
  const ownIds = new Set<string>([...near].flatMap(({ turnId }) => [turnId, homeTurnId(turnId)]))
  const turns = all.turns
    // A way home that is not gone any more may be gone again; it holds nothing meanwhile.
    .filter((turn) =>
      turn.status === 'dropped'
        ? turn.purpose === 'return-home' && ownIds.has(turn.id)
        : ownIds.has(turn.id) || isNear(timeOf(turn)),
    )
    .sort((a, b) => a.dueAt - b.dueAt || byId(a, b))
  const nearIds = new Set<string>([...near].map(({ id }) => id))
  const named = new Set<string>(
    turns.filter(({ bookingId }) => nearIds.has(bookingId)).flatMap((turn) => turn.predecessorBookingIds),
  )
  return {
    ...all,
    window,
    bookings: live.filter(
      (booking) => near.has(booking) || named.has(booking.id) || beyond.includes(booking),
    ),
    turns,
    closures: all.closures.filter(isNear),
    observations: all.observations.filter((seen) =>
      spans.some((span) => {
        if (seen.seenAt >= span.toAt) return false
        const before = all.observations.findLast(
          ({ roomId, seenAt }) => roomId === seen.roomId && seenAt < span.fromAt,
        )
        return seen.seenAt >= span.fromAt || seen === before
      }),
    ),
  }
}

/** From when it may hold somebody until when it may. */
function timeOf({ releaseAt, dueAt, plan }: Turn): HalfOpenInterval {
  const tasks = plan?.tasks ?? []
  return {
    fromAt: Math.min(releaseAt, ...tasks.map(({ startsAt }) => startsAt)) as Instant,
    toAt: Math.max(dueAt, ...tasks.map(({ endsAt }) => endsAt)) as Instant,
  }
}

/**
 * Bookings that the operations speak of, as they stand, with all that stand or fall together with them, and those that
 * are going on when a span begins.
 */
export function spokenOf({ bookings, now }: SiteSnapshot, operations: readonly Operation[]): Booking[] {
  const ids = new Set(operations.flatMap(idsIn))
  const named = bookings.filter(({ id, turnId, linkId }) =>
    [id, turnId, linkId].some((one) => one && ids.has(one)),
  )
  const links = new Set(named.flatMap(({ linkId }) => linkId ?? []))
  const begins = operations.flatMap((one) => ('span' in one ? one.span.fromAt : []))
  const isLinked = ({ linkId }: Booking) => linkId !== null && links.has(linkId)
  const isGoingOn = ({ doorsAt, clearAt }: Booking) =>
    doorsAt > now - 2 * DAY_MS && begins.some((at) => doorsAt < at && clearAt + DAY_MS > at)
  return bookings.filter(
    (booking) =>
      named.includes(booking) || (isBlocking(booking) && (isLinked(booking) || isGoingOn(booking))),
  )
}

function idsIn(operation: Operation): string[] {
  switch (operation.kind) {
    case 'change':
      return [operation.booking.id]
    case 'confirm':
    case 'lapse':
    case 'cancel':
    case 'clear-later':
      return [operation.bookingId]
    case 'link':
      return operation.bookingIds
    case 'unlink':
      return [operation.linkId]
    case 'polish':
      return operation.turnIds.map((id) => id.replace(/-home$/, ''))
    case 'book':
    case 'hold':
    case 'set-up':
    case 'judge':
      return []
    default:
      return operation satisfies never
  }
}
