/**
 * A device that reaches from one room into another, as a wall between two halves, can be one way only: whoever is in the
 * other room at doors, and came before, has it as they need it.
 */
import { type Booking, heldUntilAt } from '../../../domain/booking.ts'
import type { Reason } from '../../../domain/reason.ts'
import { sameSetting, settingText } from '../../network/index.ts'
import { lastBeyond, reachesBeyond, settingIn } from '../../timeline/device-before.ts'
import { layoutOf, roomOf, type World } from '../../timeline/world.ts'

/** By device, in order of their ids, then as the bookings began. */
export function deviceHeld(world: World, booking: Booking): Reason[] {
  const room = roomOf(world, booking.roomId)
  const wantedBy = ({ layoutId }: Booking) => layoutOf(world, layoutId)
  return world.setup.equipment
    .filter((equipment) => reachesBeyond(room, equipment))
    .flatMap((equipment): Reason[] => {
      const to = settingIn(wantedBy(booking), equipment)
      const holders = [...new Set(lastBeyond(world, booking, equipment))]
        .filter((holder) => heldUntilAt(holder) > booking.doorsAt)
        .sort((a, b) => a.doorsAt - b.doorsAt || (a.id < b.id ? -1 : 1))
      return holders.flatMap((holder): Reason[] => {
        const from = settingIn(wantedBy(holder), equipment)
        if (sameSetting(from, to)) return []
        return [
          {
            code: 'device-held',
            equipmentId: equipment.id,
            bookingId: holder.id,
            forBookingId: booking.id,
            from: settingText(from),
            to: settingText(to),
            fromAt: holder.doorsAt,
            toAt: heldUntilAt(holder),
          },
        ]
      })
    })
}
