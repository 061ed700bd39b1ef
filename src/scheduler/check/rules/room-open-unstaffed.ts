import { type HalfOpenInterval, overlaps, unionOf } from '../../../domain/half-open-interval.ts'
import { openingStretches } from '../../timeline/opening-stretches.ts'
import { localDateOf, weekdayOf } from '../../timeline/wall-time.ts'
import { listText } from '../../wording/list-text.ts'
import { weekdayText } from '../amount-text.ts'
import { aboutRow, type Found } from '../found.ts'
import { DUTY_DAYS, type SetupReading } from '../setup-reading.ts'

/**
 * Weekdays on which a room opens and nobody is on duty while it is open, in every week looked at. Silent for rooms
 * without opening hours, and while nobody at all is on duty: that is said once.
 */
export function roomOpenUnstaffed({ setup, lanes, now, dutyUntilAt }: SetupReading): Found[] {
  if (lanes.length === 0) return []
  const duty = unionOf(lanes.flatMap(({ onDuty }) => onDuty))
  return setup.rooms.flatMap((room): Found[] => {
    const stretches = openingStretches(room, setup.site.zone, { fromAt: now, toAt: dutyUntilAt }) ?? []
    const weekdays = unstaffedWeekdays(stretches, duty, setup.site.zone)
    if (weekdays.length === 0) return []
    const days = listText(weekdays.map((weekday) => `${weekdayText(weekday)}s`))
    return [
      {
        code: 'room-open-unstaffed',
        about: aboutRow('room', room),
        message: `${room.name} is open on ${days}, when nobody is on duty in the next ${DUTY_DAYS} days`,
        fix: 'add shifts for these days, or shorten the opening hours',
        field: '/openingHours',
      },
    ]
  })
}

/** A stretch that runs over days counts for the day it opens on. */
function unstaffedWeekdays(
  stretches: readonly HalfOpenInterval[],
  duty: readonly HalfOpenInterval[],
  zone: string,
): number[] {
  const staffed = new Set<number>()
  const open = new Set<number>()
  for (const stretch of stretches) {
    const weekday = weekdayOf(localDateOf(stretch.fromAt, zone))
    open.add(weekday)
    if (duty.some((interval) => overlaps(interval, stretch))) staffed.add(weekday)
  }
  return [...open].filter((weekday) => !staffed.has(weekday)).sort((a, b) => a - b)
}
