/** When a room is open, as stretches without a break. */
import { type HalfOpenInterval, unionOf } from '../../domain/half-open-interval.ts'
import type { Room } from '../../domain/room.ts'
import { weeklyIntervals } from './weekly-intervals.ts'

/** @returns null: always open; otherwise the stretches that touch the window, in order of time */
export function openingStretches(
  room: Room,
  zone: string,
  window: HalfOpenInterval,
): HalfOpenInterval[] | null {
  if (room.openingHours === null) return null
  return unionOf(
    room.openingHours.flatMap((hours) =>
      weeklyIntervals(
        {
          weekdays: hours.weekdays,
          fromLocal: hours.opensLocal,
          toLocal: hours.closesLocal,
          firstDate: null,
          lastDate: null,
          exceptions: [],
        },
        zone,
        window,
      ),
    ),
  )
}
