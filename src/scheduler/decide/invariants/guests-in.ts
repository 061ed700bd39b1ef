/** Nobody turns a room while guests are in any part of it, however long they stay. */
import { leftAt } from '../../../domain/booking.ts'
import { roomOf, sharesSection } from '../../timeline/world.ts'
import { isTurnWork } from '../plan/event-tasks.ts'
import type { WholeSite } from './whole-site.ts'

export const guestsIn = ({ world, toCome }: WholeSite): string[] =>
  toCome
    .filter(({ status }) => status === 'ready')
    .flatMap((turn) => {
      const room = roomOf(world, turn.roomId)
      const work = (turn.plan?.tasks ?? []).filter(isTurnWork)
      const inside = world.bookings.find(
        (booking) =>
          sharesSection(room, roomOf(world, booking.roomId)) &&
          work.some(({ startsAt, endsAt }) => startsAt < leftAt(booking) && endsAt > booking.doorsAt),
      )
      return inside ? [`${turn.id} is at work while the guests of ${inside.id} are in`] : []
    })
