/** How many exits of a room are open when, as closures come. */
import type { Booking } from '../../domain/booking.ts'
import type { Closure } from '../../domain/closure.ts'
import type { Room } from '../../domain/room.ts'
import { aboutRow, type Found } from './found.ts'
import type { SetupReading } from './setup-reading.ts'
import { countsFromNow, holdsAt, isOver, meets, type Shortage, shortages } from './shortage.ts'
import { bookingsText } from './when-text.ts'

/** All exits of a closed room: nobody is in there, so none is wanted. */
const NONE_WANTED = Number.POSITIVE_INFINITY

export interface ExitsShort {
  readonly shortage: Shortage
  /** The one by which it comes to so few. */
  readonly closure: Closure
  /** Of this room, in that time, by doors. */
  readonly booked: readonly Booking[]
}

/**
 * Times in which closures leave fewer exits open than wanted, in order. Those in which fewer than `atLeast` are open are
 * another matter. Closures that are over do not matter any more.
 */
export function exitsShort(reading: SetupReading, room: Room, wanted: number, atLeast: number): ExitsShort[] {
  const { setup, now, bookings } = reading
  const exitIds = new Set(reading.exitsOf(room).map(({ id }) => id))
  const closing = setup.closures.filter(
    (closure) => !isOver(closure, now) && closure.exitIds.some((id) => exitIds.has(id)),
  )
  if (closing.length === 0) return []
  const shutting = setup.closures.filter(({ sectionIds }) =>
    sectionIds.some((id) => room.sectionIds.includes(id)),
  )
  const openAt = (at: SetupReading['now']): number => {
    if (shutting.some((closure) => holdsAt(closure, at))) return NONE_WANTED
    const closed = closing.filter((closure) => holdsAt(closure, at)).flatMap((closure) => closure.exitIds)
    const open = exitIds.size - new Set(closed.filter((id) => exitIds.has(id))).size
    return open < atLeast ? NONE_WANTED : open
  }
  return shortages(wanted, countsFromNow([...closing, ...shutting], now, openAt)).flatMap(
    (shortage): ExitsShort[] => {
      const [closure] = closing
        .filter((one) => holdsAt(one, shortage.leastAt))
        .sort((a, b) => b.fromAt - a.fromAt || (a.id < b.id ? -1 : 1))
      const booked = bookings.filter(
        ({ roomId, doorsAt, clearAt }) =>
          roomId === room.id && meets(shortage, { fromAt: doorsAt, toAt: clearAt }),
      )
      return closure ? [{ shortage, closure, booked }] : []
    },
  )
}

export const aboutClosure = (closure: Closure): Pick<Found, 'about' | 'field'> => ({
  about: aboutRow('closure', { id: closure.id, name: closure.reason }),
  field: '/exitIds',
})

/** `; booked then: “Harvest supper” (doors Sat 28 Nov 17:00)`, or nothing. */
export const bookedThenText = ({ booked }: ExitsShort, reading: SetupReading): string =>
  booked.length === 0 ? '' : `; booked then: ${bookingsText(booked, reading)}`
