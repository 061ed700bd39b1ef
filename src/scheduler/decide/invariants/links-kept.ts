/** Who keeps a room as set keeps it until the next of its link there, who finds it so, and for nobody else. */
import type { Booking } from '../../../domain/booking.ts'
import { homeTurnId } from '../../../domain/home-turn-id.ts'
import { roomOf, sharesSection, type World } from '../../timeline/world.ts'
import type { WholeSite } from './whole-site.ts'

export const linksKept = ({ world }: WholeSite): string[] =>
  world.bookings.flatMap((booking) => (booking.keptUntilAt === null ? [] : keptFaults(world, booking)))

function keptFaults(world: World, booking: Booking): string[] {
  const { id, linkId, roomId, layoutId, keptUntilAt, clearAt, turnId } = booking
  const next = world.bookings.find(
    (one) => one.linkId === linkId && one.doorsAt === keptUntilAt && one.roomId === roomId,
  )
  if (!next || linkId === null || next.id === id) return [`${id} keeps its room as set for nobody`]
  const faults: string[] = []
  if (next.layoutId !== layoutId)
    faults.push(`${id} keeps its room as set for ${next.id}, which wants another`)
  const between = world.bookings.filter(
    (other) =>
      other.id !== id &&
      other.id !== next.id &&
      other.doorsAt >= clearAt &&
      other.doorsAt < next.doorsAt &&
      sharesSection(roomOf(world, other.roomId), roomOf(world, roomId)),
  )
  faults.push(
    ...between.map((other) => `${other.id} is between ${id} and ${next.id}, for which it is kept as set`),
  )
  if (world.turnsById.has(homeTurnId(turnId)))
    faults.push(`${id} keeps its room as set, and ${homeTurnId(turnId)} puts it back`)
  return faults
}
