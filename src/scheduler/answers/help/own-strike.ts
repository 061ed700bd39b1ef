/** The group that was there takes down its own chairs and tables. */
import { leftAt } from '../../../domain/booking.ts'
import { instantPlusSeconds } from '../../../domain/instant.ts'
import { workFromAt } from '../../decide/plan/built-instance.ts'
import { counted } from '../../wording/counted.ts'
import { circumstancesOf } from '../circumstances.ts'
import { readyAtIn } from '../ready.ts'
import type { Candidate, HelpAsked } from './candidate.ts'

/** The most a group may help with (domain/booking-terms.ts). */
const HANDS_MOST = 10
const SECONDS = 1200

/** As many as were there, at most ten, for twenty minutes; how many of them can be led depends on the crew. */
export function ownStrikeHelp({ snapshot, turn, circumstances, search }: HelpAsked): Candidate[] {
  const { world, part } = circumstances
  const { input } = part
  if (input.network.outgoing === null) return []
  const fromAt = workFromAt(world, input)
  const leaving = world.bookings.filter(
    (booking) =>
      input.predecessorBookingIds.includes(booking.id) &&
      booking.ownHelp === null &&
      // Whoever left long before the work can begin is gone.
      instantPlusSeconds(leftAt(booking), SECONDS) > fromAt,
  )
  if (leaving.length === 0) return []
  const bookingIds = leaving.map(({ id }) => id)
  const hands = Math.min(HANDS_MOST, Math.max(...leaving.map(({ headcount }) => headcount)))
  const helping = snapshot.bookings.map((booking) =>
    bookingIds.includes(booking.id)
      ? { ...booking, ownHelp: { hands: Math.min(hands, booking.headcount), seconds: SECONDS } }
      : booking,
  )
  return [
    {
      change: { kind: 'own-strike', bookingIds, hands, seconds: SECONDS },
      what: `The outgoing group strikes its own chairs and tables (up to ${counted(hands, 'person', 'people')} for ${SECONDS / 60} min after clear)`,
      isNeverLater: true,
      readyAt: () => {
        const changed = circumstancesOf({ ...snapshot, bookings: helping }, turn)
        return changed && readyAtIn(changed, search)
      },
    },
  ]
}
