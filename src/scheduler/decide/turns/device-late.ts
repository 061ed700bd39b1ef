/**
 * A turn counts on how a device stands that another room shares: where the turn that brings it there is late, so is this
 * one, though its own work would be done.
 */
import type { Booking } from '../../../domain/booking.ts'
import type { Equipment } from '../../../domain/equipment.ts'
import type { TurnId } from '../../../domain/ids.ts'
import { earlierOf, instantPlusSeconds, laterOf } from '../../../domain/instant.ts'
import type { Reason } from '../../../domain/reason.ts'
import { TURN_LONGEST_SECONDS, type Turn } from '../../../domain/turn.ts'
import { sameSetting, settingText } from '../../network/index.ts'
import { deviceBefore, reachesBeyond, settingIn } from '../../timeline/device-before.ts'
import { layoutOf, roomOf, sharesSection, type World } from '../../timeline/world.ts'

/** By device, in order of their ids. */
export function devicesLate(
  world: World,
  booking: Booking,
  turnOf: (turnId: TurnId) => Turn | null,
): Reason[] {
  const room = roomOf(world, booking.roomId)
  return world.setup.equipment
    .filter((equipment) => reachesBeyond(room, equipment))
    .flatMap((equipment): Reason[] => {
      const mover = moverOf(world, booking, equipment)
      const turn = mover && turnOf(mover.turnId)
      if (!mover || !turn || turn.status === 'ready' || turn.dueAt <= world.now) return []
      const moves = (turn.plan?.tasks ?? []).filter(({ equipmentId }) => equipmentId === equipment.id)
      const movedAt = moves.length === 0 ? null : moves.map(({ endsAt }) => endsAt).reduce(laterOf)
      // So late that its own booking is over, it is done by nobody.
      const isMoved = movedAt !== null && movedAt <= earlierOf(booking.doorsAt, mover.clearAt)
      if (turn.plan !== null && (movedAt === null || isMoved)) return []
      return [
        {
          code: 'device-late',
          equipmentId: equipment.id,
          bookingId: booking.id,
          moverBookingId: mover.id,
          to: settingText(settingIn(layoutOf(world, booking.layoutId), equipment)),
          doorsAt: booking.doorsAt,
          movedAt,
        },
      ]
    })
}

/**
 * In another room, within two days before doors; null: nobody there brings the device to how it is wanted, as its own turn
 * does, or it stands so.
 */
function moverOf(world: World, booking: Booking, equipment: Equipment): Booking | null {
  const wanted = settingIn(layoutOf(world, booking.layoutId), equipment)
  const before = deviceBefore(world, booking, equipment)
  if (!sameSetting(before.setting, wanted)) return null
  const earliestAt = instantPlusSeconds(booking.doorsAt, -TURN_LONGEST_SECONDS)
  let holder = before.leftBy
  while (holder !== null && holder.doorsAt >= earliestAt) {
    if (sharesSection(roomOf(world, holder.roomId), roomOf(world, booking.roomId))) return null
    const { setting, leftBy } = deviceBefore(world, holder, equipment)
    if (!sameSetting(setting, wanted)) return holder
    holder = leftBy
  }
  return null
}
