/** Opening hours that contradict each other. */
import type { OpeningHours } from '../../domain/room.ts'
import { bodyFault, type Fault } from '../problems.ts'

const DAY_MINUTES = 24 * 60
const WEEK_MINUTES = 7 * DAY_MINUTES

interface Stretch {
  readonly entry: number
  readonly from: number
  readonly to: number
}

/** Hours that overlap on some day of the week; hours that meet, end to start, do not. */
export function openingFaults(hours: readonly OpeningHours[]): Fault[] {
  const stretches = hours.flatMap(stretchesOf)
  return hours.flatMap((_, entry) => {
    const clash = stretches.find(
      (one) => one.entry === entry && stretches.some((other) => comesFirst(other, one) && meet(one, other)),
    )
    return clash
      ? [
          bodyFault(
            `/openingHours/${entry}`,
            'these hours overlap hours listed before; make one of both or shorten one',
          ),
        ]
      : []
  })
}

function stretchesOf({ weekdays, opensLocal, closesLocal }: OpeningHours, entry: number): Stretch[] {
  const opens = minutesOf(opensLocal)
  const closes = minutesOf(closesLocal)
  const length = closes > opens ? closes - opens : closes + DAY_MINUTES - opens
  return weekdays.map((weekday) => {
    const from = (weekday - 1) * DAY_MINUTES + opens
    return { entry, from, to: from + length }
  })
}

/** A stretch also clashes with another one of its own entry, where a weekday is listed twice or runs into the next. */
const comesFirst = (other: Stretch, one: Stretch): boolean =>
  other !== one && (other.entry < one.entry || (other.entry === one.entry && other.from <= one.from))

/** The week goes round: Sunday night runs into Monday. */
const meet = (a: Stretch, b: Stretch): boolean =>
  [-WEEK_MINUTES, 0, WEEK_MINUTES].some((shift) => a.from + shift < b.to && b.from < a.to + shift)

const minutesOf = (local: string): number => Number(local.slice(0, 2)) * 60 + Number(local.slice(3, 5))
