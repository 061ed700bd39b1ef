/** The same booking, at the same time, in another room that has a layout of its kind and seats for everybody. */
import type { Alternative } from '../../../domain/alternative.ts'
import { layoutName, roomName } from '../../../domain/setup-names.ts'
import { layoutOf } from '../../timeline/world.ts'
import type { AskedFor } from './asked-for.ts'
import { firstAccepted } from './first-accepted.ts'
import { fitsText } from './fits-text.ts'
import { seatingLayouts } from './seating-layouts.ts'

/** @returns one at most: that with the fewest seats */
export function otherRoom(asked: AskedFor): Alternative[] {
  const { world, booking } = asked
  const { kind } = layoutOf(world, booking.layoutId)
  const elsewhere = world.setup.layouts.filter(
    (layout) => layout.roomId !== booking.roomId && layout.kind === kind,
  )
  const bookings = seatingLayouts(elsewhere, booking.headcount, kind).map((layout) => ({
    ...booking,
    roomId: layout.roomId,
    layoutId: layout.id,
  }))
  const accepted = firstAccepted(asked, bookings)
  if (accepted === null) return []
  const { verdict } = accepted
  const { roomId, layoutId } = accepted.booking
  const place = `${roomName(world.setup, roomId)} with the layout ${layoutName(world.setup, layoutId)}`
  const message = `In ${place} ${fitsText(verdict)}`
  return [{ kind: 'other-room', certainty: 'yes', roomId, layoutId, verdict, message }]
}
