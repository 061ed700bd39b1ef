/**
 * A milestone after clear is reached by the turn that follows: for the next booking there, or back to the home layout.
 * Where none follows nobody would do the work, and a yes to the booking would be none to what it asks for.
 */
import type { Booking } from '../../../domain/booking.ts'
import type { BookingMilestone } from '../../../domain/booking-terms.ts'
import { laterOf } from '../../../domain/instant.ts'
import type { Operation } from '../../../domain/operation.ts'
import type { Reason } from '../../../domain/reason.ts'
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import { homeTurnInputOf } from '../../timeline/turn-input.ts'
import { dayAndTimeOf } from '../../timeline/wall-time.ts'
import { firstFrom, roomOf, sharesSection, type World } from '../../timeline/world.ts'
import { type WorldAfter, worldAfter } from './world-after.ts'

export interface MilestoneOfNobody {
  /** JSON pointer to it. */
  readonly at: string
  readonly message: string
}

/**
 * @param operations  with nothing else wrong with them: what is asked for together counts
 * @returns of bookings that are asked for; a milestone that was taken before is not asked for anew, though nobody comes
 *   after it any more, nor is one that only goes along with an end that is moved
 */
export function milestonesOfNobody(
  snapshot: SiteSnapshot,
  operations: readonly Operation[],
): MilestoneOfNobody[] {
  const asked = operations.flatMap((one) =>
    one.kind === 'book' || one.kind === 'hold' || one.kind === 'change' ? [one.booking] : [],
  )
  if (!asked.some(({ milestones, doorsAt }) => milestones.some(({ byAt }) => byAt > doorsAt))) return []
  const { world, asItWas } = worldAfter(snapshot, operations)
  return asked.flatMap((booking) => {
    if (isFollowed(world, booking)) return []
    const stored = snapshot.bookings.find(({ id }) => id === booking.id)
    const wasOrphan = stored !== undefined && !isFollowed(asItWas(), stored)
    return booking.milestones.flatMap((wanted, index) => {
      if (wanted.byAt <= booking.doorsAt) return []
      if (stored && isOld(booking, stored, wanted, wasOrphan)) return []
      const clear = dayAndTimeOf(booking.clearAt, snapshot.site.zone)
      const message =
        `nobody turns the room after it is clear at ${clear}, so nobody would do this; book first what comes next, ` +
        'let the policy put the room back into its home layout, or leave it out'
      return [{ at: `/milestones/${index}/byAt`, message }]
    })
  })
}

/** @param wasOrphan  nobody came after the stored one either: that it was moved takes nothing from it */
const isOld = (booking: Booking, stored: Booking, wanted: BookingMilestone, wasOrphan: boolean): boolean =>
  stored.milestones.some(
    ({ milestone, byAt }) =>
      milestone === wanted.milestone &&
      (byAt === wanted.byAt ||
        (wasOrphan && byAt - stored.endsAt === wanted.byAt - booking.endsAt && byAt > stored.doorsAt)),
  )

/**
 * Milestones that the turns of bookings that are given up would have reached, and now nobody does: by doors of whose they
 * are, then as they come. Those whose time is past are over.
 */
export function milestonesOrphaned(
  { world, asItWas, bookings }: WorldAfter,
  operations: readonly Operation[],
): Reason[] {
  if (!operations.some(({ kind }) => kind === 'cancel' || kind === 'lapse')) return []
  const given = bookings
    .filter((change) => change.after.status === 'CANCELLED')
    .map((change) => roomOf(world, change.after.roomId))
  const isBeside = ({ roomId }: Booking) => given.some((room) => sharesSection(roomOf(world, roomId), room))
  return world.bookings
    .filter((booking) => booking.milestones.some(({ byAt }) => byAt > laterOf(booking.doorsAt, world.now)))
    .filter((booking) => isBeside(booking) && !isFollowed(world, booking) && isFollowed(asItWas(), booking))
    .sort((a, b) => a.doorsAt - b.doorsAt || (a.id < b.id ? -1 : 1))
    .flatMap(({ id, turnId, doorsAt, milestones }) =>
      milestones
        .filter(({ byAt }) => byAt > laterOf(doorsAt, world.now))
        .map(
          ({ milestone, byAt }): Reason => ({
            code: 'milestone-missed',
            turnId,
            side: 'after',
            milestone,
            byAt,
            reachedAt: null,
            proof: 'bound',
            bookingId: id,
          }),
        ),
    )
}

function isFollowed(world: World, booking: Booking): boolean {
  const isNext = roomOf(world, booking.roomId).sectionIds.some((sectionId) => {
    const here = world.bookingsBySection.get(sectionId) ?? []
    return here.slice(firstFrom(here, booking.clearAt)).some(({ id }) => id !== booking.id)
  })
  return isNext || homeTurnInputOf(world, booking) !== null
}
