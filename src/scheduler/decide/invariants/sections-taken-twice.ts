/** Nobody is where somebody else is, or for whom the room is kept. */
import { heldUntilAt } from '../../../domain/booking.ts'
import { roomOf, sharesSection } from '../../timeline/world.ts'
import type { WholeSite } from './whole-site.ts'

export function sectionsTakenTwice({ world }: WholeSite): string[] {
  return world.bookings.flatMap((booking, index) => {
    const faults: string[] = []
    for (const other of world.bookings.slice(index + 1)) {
      // By doors: no later one can meet it.
      if (other.doorsAt >= heldUntilAt(booking)) break
      if (sharesSection(roomOf(world, other.roomId), roomOf(world, booking.roomId)))
        faults.push(`${booking.id} and ${other.id} are in one place at once`)
    }
    return faults
  })
}
