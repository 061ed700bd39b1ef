import type { Booking } from '../../../domain/booking.ts'
import type { Closure } from '../../../domain/closure.ts'
import { type HalfOpenInterval, overlaps, unionOf } from '../../../domain/half-open-interval.ts'
import type { RoomId } from '../../../domain/ids.ts'
import { earlierOf, laterOf } from '../../../domain/instant.ts'
import type { Layout } from '../../../domain/layout.ts'
import { type CarriedWay, carriedWays } from '../carried-ways.ts'
import { type ComingTurn, comingTurns } from '../coming-turns.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { countsFromNow, holdsAt, isOver, type Shortage, shortages } from '../shortage.ts'
import { bookingsText, whenText } from '../when-text.ts'

/**
 * A store, or a passage on the way from it to a room, that is closed all the time there is to turn the room for a
 * booking which needs pieces brought from there or put away there. Where some of the time is left, its turn tells.
 */
export function storeCutOff(reading: SetupReading): Found[] {
  const { setup, now } = reading
  const closures = setup.closures.filter(
    (one) => !isOver(one, now) && one.storagePlaceIds.length + one.passageIds.length > 0,
  )
  if (closures.length === 0 || reading.bookings.length === 0) return []
  const staffed = unionOf(reading.lanes.flatMap(({ onDuty }) => [...onDuty]))
  const turnsByRoom = new Map<RoomId, TurnToWork[]>()
  for (const turn of comingTurns(reading)) {
    const known = turnsByRoom.get(turn.room.id) ?? []
    turnsByRoom.set(turn.room.id, [...known, { ...turn, times: workTimes(reading, staffed, turn.span) }])
  }
  return carriedWays(reading).flatMap((way) => {
    const turns = turnsByRoom.get(way.room.id) ?? []
    const onTheWay = closures.filter(
      ({ storagePlaceIds, passageIds }) =>
        storagePlaceIds.includes(way.store.id) || way.passages.some(({ id }) => passageIds.includes(id)),
    )
    if (turns.length === 0 || onTheWay.length === 0) return []
    const openAt = (at: SetupReading['now']): number => (onTheWay.some((one) => holdsAt(one, at)) ? 0 : 1)
    return shortages(1, countsFromNow(onTheWay, now, openAt)).flatMap((shortage): Found[] => {
      const cutOff = turns.filter((turn) => isCutOff(shortage, turn.times) && needsStore(reading, turn, way))
      const closure = onTheWay.find((one) => holdsAt(one, shortage.fromAt))
      const bookings = cutOff.map(({ booking }) => booking)
      return bookings.length > 0 && closure ? [finding(reading, way, shortage, closure, bookings)] : []
    })
  })
}

interface TurnToWork extends ComingTurn {
  /** When somebody can work on it. */
  readonly times: readonly HalfOpenInterval[]
}

/** Other pieces that live in the store stand before than shall stand; nothing known before: as the room is at home. */
function needsStore(
  { rooms, layouts }: SetupReading,
  { booking, layout, after }: ComingTurn,
  { furnishings }: CarriedWay,
): boolean {
  const homeLayoutId = rooms.get(booking.roomId)?.homeLayoutId ?? null
  const stands = after?.layout ?? (homeLayoutId === null ? undefined : layouts.get(homeLayoutId))
  return furnishings.some(({ id }) => countIn(layout, id) !== (stands ? countIn(stands, id) : 0))
}

const countIn = (layout: Layout, id: string): number =>
  layout.furnishings.find((piece) => piece.furnishingId === id)?.count ?? 0

/** When somebody is on duty; beyond what is known of duty, all of it. */
function workTimes(
  { dutyUntilAt }: SetupReading,
  staffed: readonly HalfOpenInterval[],
  span: HalfOpenInterval,
): HalfOpenInterval[] {
  const beyond = { fromAt: laterOf(span.fromAt, dutyUntilAt), toAt: span.toAt }
  const within = staffed
    .filter((one) => overlaps(one, span))
    .map((one) => ({ fromAt: laterOf(one.fromAt, span.fromAt), toAt: earlierOf(one.toAt, span.toAt) }))
  return unionOf([...within, beyond])
}

const isCutOff = ({ fromAt, toAt }: Shortage, times: readonly HalfOpenInterval[]): boolean =>
  times.length > 0 && times.every((time) => fromAt <= time.fromAt && (toAt === null || time.toAt <= toAt))

function finding(
  reading: SetupReading,
  { store, room }: CarriedWay,
  shortage: Shortage,
  closure: Closure,
  bookings: readonly Booking[],
): Found {
  const isStore = closure.storagePlaceIds.includes(store.id)
  return {
    code: 'store-cut-off',
    about: aboutRow('closure', { id: closure.id, name: closure.reason }),
    message: `${isStore ? `the ${store.name} is closed` : `the way from the ${store.name} to ${room.name} is closed`} ${whenText(shortage, reading)} (${closure.reason}), all the time there is to turn ${room.name} for ${bookingsText(bookings, reading)}`,
    fix: 'open it for a while, have the pieces out before, or give the booking another time or layout',
    field: isStore ? '/storagePlaceIds' : '/passageIds',
  }
}
