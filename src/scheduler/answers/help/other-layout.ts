/** The same booking with another layout of its room that serves the same purpose and seats everybody. */
import { seatingLayouts } from '../../decide/nearest-yes/seating-layouts.ts'
import { layoutOf } from '../../timeline/world.ts'
import { circumstancesOf } from '../circumstances.ts'
import { readyAtIn } from '../ready.ts'
import type { Candidate, HelpAsked } from './candidate.ts'
import { servesAlike } from './serves-alike.ts'

const LAYOUTS_MOST = 3

/** None where the turn puts the room back. */
export function otherLayoutHelp({ snapshot, turn, circumstances, search }: HelpAsked): Candidate[] {
  const { world, part } = circumstances
  const { booking, purpose, room } = part.input
  if (purpose !== 'prepare') return []
  const asked = layoutOf(world, booking.layoutId)
  const others = snapshot.layouts.filter(
    (layout) =>
      layout.roomId === room.id && layout.id !== asked.id && servesAlike(asked, layout, snapshot.furnishings),
  )
  return seatingLayouts(others, booking.headcount, asked.kind)
    .slice(0, LAYOUTS_MOST)
    .map(({ id: layoutId, name }) => ({
      change: { kind: 'other-layout', layoutId },
      what: `The layout ${name} instead`,
      isNeverLater: false,
      readyAt: () => {
        const bookings = snapshot.bookings.map((one) => (one.id === booking.id ? { ...one, layoutId } : one))
        const changed = circumstancesOf({ ...snapshot, bookings }, turn)
        return changed && readyAtIn(changed, search)
      },
    }))
}
