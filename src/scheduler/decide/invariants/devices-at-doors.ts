/**
 * Told from the plans alone: at the doors of a booking whose turn is ready each device that its room shares is as its layout
 * wants it, and while its guests are in nobody moves it.
 */
import type { Booking } from '../../../domain/booking.ts'
import type { Equipment } from '../../../domain/equipment.ts'
import type { Instant } from '../../../domain/instant.ts'
import type { PlannedTask } from '../../../domain/plan.ts'
import { settingText } from '../../network/index.ts'
import { reachesBeyond, settingIn } from '../../timeline/device-before.ts'
import { layoutOf, roomOf } from '../../timeline/world.ts'
import type { WholeSite } from './whole-site.ts'

export function devicesAtDoors({ snapshot, world, toCome }: WholeSite): string[] {
  const movesOf = new Map<Equipment, readonly PlannedTask[]>()
  const clearAtOf = new Map(world.bookings.map(({ turnId, clearAt }) => [turnId, clearAt]))
  // A plan so late that its own booking is over is carried out by nobody.
  const work = snapshot.turns.flatMap(({ id, plan, status }) =>
    (plan?.tasks ?? []).filter(
      ({ endsAt }) => status !== 'failing' || endsAt <= (clearAtOf.get(id) ?? endsAt),
    ),
  )
  const isReady = new Set(
    toCome.filter(({ status, purpose }) => status === 'ready' && purpose === 'prepare').map(({ id }) => id),
  )
  return world.bookings.flatMap((booking) => {
    if (booking.doorsAt <= snapshot.now || !isReady.has(booking.turnId)) return []
    const room = roomOf(world, booking.roomId)
    return world.setup.equipment
      .filter((equipment) => equipment.control.kind === 'states' && reachesBeyond(room, equipment))
      .flatMap((equipment) => {
        const moves = movesOf.get(equipment) ?? movesIn(work, equipment)
        movesOf.set(equipment, moves)
        return faults(booking, equipment, moves, {
          wanted: settingText(settingIn(layoutOf(world, booking.layoutId), equipment)),
          seenAt: world.observations
            .filter(
              ({ seenAt, equipment: seen }) =>
                seenAt <= booking.doorsAt && seen.some((one) => one.equipmentId === equipment.id),
            )
            .reduce<Instant | null>(
              (last, { seenAt }) => (last === null || seenAt > last ? seenAt : last),
              null,
            ),
        })
      })
  })
}

/** By their end. */
const movesIn = (tasks: readonly PlannedTask[], { id }: Equipment): PlannedTask[] =>
  tasks
    .filter(({ kind, equipmentId }) => kind === 'switch' && equipmentId === id)
    .sort((a, b) => a.endsAt - b.endsAt)

function faults(
  { id, doorsAt, clearAt }: Booking,
  { name }: Equipment,
  moves: readonly PlannedTask[],
  { wanted, seenAt }: { readonly wanted: string; readonly seenAt: Instant | null },
): string[] {
  const during = moves.find(({ startsAt, endsAt }) => startsAt < clearAt && endsAt > doorsAt)
  if (during) return [`the ${name} is moved while ${id} is there`]
  const last = moves.findLast(({ endsAt }) => endsAt <= doorsAt)
  // What was seen since is nobody's plan.
  if (!last || (seenAt !== null && seenAt >= last.startsAt)) return []
  const stands = last.key.split('/').at(-1)
  return stands === wanted
    ? []
    : [`the ${name} is ${stands} at the doors of ${id}, which is ready and wants it ${wanted}`]
}
