/** Turns that count on a device being moved by another turn are looked at once more when all turns are judged. */
import type { Booking } from '../../../domain/booking.ts'
import type { TurnId } from '../../../domain/ids.ts'
import { instantPlusSeconds } from '../../../domain/instant.ts'
import type { Reason } from '../../../domain/reason.ts'
import { TURN_LONGEST_SECONDS, type Turn } from '../../../domain/turn.ts'
import { reachesBeyond } from '../../timeline/device-before.ts'
import { turnInputOf } from '../../timeline/turn-input.ts'
import { isStale, roomOf, sharesSection, type World } from '../../timeline/world.ts'
import type { WorldAfter } from '../operations/world-after.ts'
import { textOf } from '../text-of.ts'
import { devicesLate } from './device-late.ts'
import { judgeTurn } from './judge-turn.ts'
import { type JudgedTurns, withBookingReasons } from './judge-turns.ts'
import type { JudgedTurn, JudgeOptions } from './judged-turn.ts'

export function withDevicesMoved(
  after: WorldAfter,
  turnsStored: readonly Turn[],
  judged: JudgedTurns,
  options: JudgeOptions,
): JudgedTurns {
  const { world } = after
  const { equipment, rooms } = world.setup
  if (!equipment.some((device) => rooms.some((room) => reachesBeyond(room, device)))) return judged
  const known = new Map(judged.turns.map((turn) => [turn.after.id, turn]))
  const turnOf = (id: TurnId): Turn | null => known.get(id)?.after ?? world.turnsById.get(id) ?? null
  // In order of doors: who moves a device may itself count on another one.
  for (const booking of world.bookings) {
    if (booking.doorsAt <= world.now) continue
    const own = known.get(booking.turnId)
    const stored = world.turnsById.get(booking.turnId) ?? null
    if (!own && (stored === null || !isBesideJudged(world, booking, known))) continue
    if (!own && isStale(world, booking.doorsAt)) continue
    const late = devicesLate(world, booking, turnOf)
    if (!own && textOf(late) === textOf(saidOf(stored))) continue
    const base = own ?? judgedAgain(after, turnsStored, known, booking, stored, options)
    if (late.length > 0 || !own) known.set(booking.turnId, withBookingReasons(base, late, false))
  }
  return { ...judged, turns: [...known.values()] }
}

const saidOf = (turn: Turn | null): Reason[] =>
  (turn?.judgement.reasons ?? []).filter(({ code }) => code === 'device-late')

/** A turn that was judged here may have been to move one of its devices. */
function isBesideJudged(world: World, booking: Booking, known: ReadonlyMap<TurnId, JudgedTurn>): boolean {
  const room = roomOf(world, booking.roomId)
  const earliestAt = instantPlusSeconds(booking.doorsAt, -TURN_LONGEST_SECONDS)
  const shared = world.setup.equipment.filter((device) => reachesBeyond(room, device))
  return [...known.values()].some(
    ({ input }) =>
      input.purpose === 'prepare' &&
      input.dueAt >= earliestAt &&
      input.dueAt <= booking.doorsAt &&
      shared.some((device) => sharesSection(device, input.room)),
  )
}

function judgedAgain(
  { world, bookings }: WorldAfter,
  turnsStored: readonly Turn[],
  known: ReadonlyMap<TurnId, JudgedTurn>,
  booking: Booking,
  stored: Turn | null,
  options: JudgeOptions,
): JudgedTurn {
  const gone = new Set(bookings.filter((c) => c.after.status === 'CANCELLED').map((c) => c.after.turnId))
  const others = [
    ...turnsStored.filter(({ id }) => !known.has(id) && !gone.has(id) && id !== booking.turnId),
    ...[...known.values()].map((turn) => turn.after),
  ]
  return judgeTurn(world, turnInputOf(world, booking), stored, null, others, options)
}
