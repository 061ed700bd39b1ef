/** The same booking with another layout of its room: one that is set sooner, or that has the seats. */
import type { Alternative } from '../../../domain/alternative.ts'
import { layoutName } from '../../../domain/setup-names.ts'
import { layoutOf } from '../../timeline/world.ts'
import type { AskedFor } from './asked-for.ts'
import { firstAccepted } from './first-accepted.ts'
import { fitsText } from './fits-text.ts'
import { seatingLayouts } from './seating-layouts.ts'

/** @returns one at most */
export function otherLayout(asked: AskedFor): Alternative[] {
  const { world, booking } = asked
  const { kind } = layoutOf(world, booking.layoutId)
  const ofRoom = world.setup.layouts.filter(
    ({ id, roomId }) => roomId === booking.roomId && id !== booking.layoutId,
  )
  const bookings = seatingLayouts(ofRoom, booking.headcount, kind).map(({ id }) => ({
    ...booking,
    layoutId: id,
  }))
  const accepted = firstAccepted(asked, bookings)
  if (accepted === null) return []
  const { verdict } = accepted
  const { layoutId } = accepted.booking
  const message = `With the layout ${layoutName(world.setup, layoutId)} ${fitsText(verdict)}`
  return [{ kind: 'other-layout', certainty: 'yes', layoutId, verdict, message }]
}
