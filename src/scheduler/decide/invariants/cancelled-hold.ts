/** What is cancelled holds nothing. Only where cancelled bookings are in the snapshot there is something to ask. */
import { isBlocking } from '../../../domain/booking.ts'
import { homeTurnId } from '../../../domain/home-turn-id.ts'
import type { WholeSite } from './whole-site.ts'

export const cancelledHold = ({ snapshot, world }: WholeSite): string[] =>
  snapshot.bookings
    .filter((booking) => !isBlocking(booking))
    .filter(({ turnId }) => [turnId, homeTurnId(turnId)].some((id) => world.turnsById.has(id)))
    .map(({ id }) => `${id} is cancelled and its turn still stands`)
