/**
 * A milestone after clear is reached by the turn that follows: for the next booking there, or back to the home layout.
 * Where none follows nobody would do the work, and a yes to the booking would be none to what it asks for.
 */
import type { Booking } from '../../../domain/booking.ts'
import type { Operation } from '../../../domain/operation.ts'
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import { homeTurnInputOf } from '../../timeline/turn-input.ts'
import { dayAndTimeOf } from '../../timeline/wall-time.ts'
import { firstFrom, roomOf, type World } from '../../timeline/world.ts'
import { worldAfter } from './world-after.ts'

export interface MilestoneOfNobody {
  /** JSON pointer to it. */
  readonly at: string
  readonly message: string
}

/**
 * @param operations  with nothing else wrong with them: what is asked for together counts
 * @returns of bookings that are asked for; a milestone that was taken before is not asked for anew, though nobody comes
 *   after it any more
 */
export function milestonesOfNobody(
  snapshot: SiteSnapshot,
  operations: readonly Operation[],
): MilestoneOfNobody[] {
  const asked = operations.flatMap((one) =>
    one.kind === 'book' || one.kind === 'hold' || one.kind === 'change' ? [one.booking] : [],
  )
  if (!asked.some(({ milestones, doorsAt }) => milestones.some(({ byAt }) => byAt > doorsAt))) return []
  const { world } = worldAfter(snapshot, operations)
  return asked.flatMap((booking) => {
    if (isFollowed(world, booking)) return []
    const stored = snapshot.bookings.find(({ id }) => id === booking.id)
    return booking.milestones.flatMap(({ milestone, byAt }, index) => {
      const isOld =
        stored?.milestones.some((one) => one.milestone === milestone && one.byAt === byAt) ?? false
      if (byAt <= booking.doorsAt || isOld) return []
      const clear = dayAndTimeOf(booking.clearAt, snapshot.site.zone)
      const message =
        `nobody turns the room after it is clear at ${clear}, so nobody would do this; book first what comes next, ` +
        'let the policy put the room back into its home layout, or leave it out'
      return [{ at: `/milestones/${index}/byAt`, message }]
    })
  })
}

function isFollowed(world: World, booking: Booking): boolean {
  const isNext = roomOf(world, booking.roomId).sectionIds.some((sectionId) => {
    const here = world.bookingsBySection.get(sectionId) ?? []
    return here.slice(firstFrom(here, booking.clearAt)).some(({ id }) => id !== booking.id)
  })
  return isNext || homeTurnInputOf(world, booking) !== null
}
