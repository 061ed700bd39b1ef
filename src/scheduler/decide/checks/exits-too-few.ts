/**
 * Fewer exits than so many people need by the published table of the site. An exit counts that is wide enough, and not
 * closed at any moment between doors and clear. Where no exit of the room is entered, nothing is known and nothing is
 * said: the check of the set-up asks for them.
 */
import type { Booking } from '../../../domain/booking.ts'
import type { Reason } from '../../../domain/reason.ts'
import { sourcesOf } from '../../standards/advice/advice-item.ts'
import { leastWidthMillimetres } from '../../standards/occupancy/exit-width.ts'
import { exitCountRow, exitsNeeded } from '../../standards/occupancy/exits.ts'
import { codeTables } from '../../standards/occupancy/tables-of-locale.ts'
import { roomOf, type World } from '../../timeline/world.ts'

export function exitsTooFew(world: World, booking: Booking): Reason[] {
  const { setup, closures } = world
  const { headcount } = booking
  const room = roomOf(world, booking.roomId)
  const exits = setup.exits.filter(({ sectionId }) => room.sectionIds.includes(sectionId))
  if (exits.length === 0) return []
  const tables = codeTables(setup.site.codeTables)
  const needed = exitsNeeded(tables, headcount)
  const rule = tables.exitWidth.level
  // To the millimetre, as the advice compares widths.
  const least = Math.round(leastWidthMillimetres(rule, headcount))
  const wide = exits.filter(({ clearWidthMetres }) => Math.round(clearWidthMetres * 1000) >= least)
  const closed = closures
    .filter(({ fromAt, toAt }) => fromAt < booking.clearAt && toAt > booking.doorsAt)
    .flatMap(({ exitIds }) => exitIds)
  const open = wide.filter(({ id }) => !closed.includes(id))
  if (open.length >= needed) return []
  const row = exitCountRow(tables, headcount)
  return [
    {
      code: 'exits-too-few',
      bookingId: booking.id,
      roomId: room.id,
      headcount,
      exitsOpen: open.length,
      exitsNeeded: needed,
      source: sourcesOf(wide.length < exits.length ? [row, rule] : [row]).source,
    },
  ]
}
