/** Moments as they come in: with an offset, or by the wall clock of the site. */
import { DateTime, IANAZone } from 'luxon'
import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import { instantFromLocal } from '../scheduler/timeline/wall-time.ts'
import type { Fault } from './problems.ts'

/** Only the shape: whether the moment exists is known once the zone is. */
export const InstantText = z
  .string({
    error: 'expected a date and time as text, such as 2026-11-28T17:00 or 2026-11-28T17:00:00-06:00',
  })
  .min(1)
  .max(40)
  .meta({
    description:
      'A moment: ISO 8601 with offset, or without one as the wall clock of the site shows it; a wall time that ' +
      'occurs twice means the first',
    examples: ['2026-11-28T17:00', '2026-11-28T17:00:00-06:00'],
  })

const shape = /^(\d{4}-\d{2}-\d{2})(?:T(\d{2}:\d{2}(?::\d{2}(?:\.\d{1,3})?)?)(Z|[+-]\d{2}:\d{2})?)?$/

/** RFC 3339, section 5.6. */
const offsetExists = /^(?:Z|[+-](?:[01]\d|2[0-3]):[0-5]\d)$/

/** Reads moments of one request and gathers what is wrong with them. */
export class InstantReader {
  readonly faults: Fault[] = []
  readonly #zone: string
  readonly #place: Fault['in']

  constructor(zone: string, place: Fault['in']) {
    this.#zone = zone
    this.#place = place
  }

  /**
   * @param at         JSON pointer of the text
   * @param dateAlone  whether a date without a time is taken, as the start of that day
   * @returns null when there is a fault, which then is among `faults`
   */
  read(at: string, text: string, dateAlone = false): Instant | null {
    const reading = momentFrom(this.#zone, text, dateAlone)
    if (typeof reading === 'number') return reading
    this.faults.push({ at, in: this.#place, message: reading })
    return null
  }
}

/** The moment, or what is wrong with the text. */
function momentFrom(zone: string, text: string, dateAlone: boolean): Instant | string {
  const [, date, time, offset] = shape.exec(text) ?? []
  if (date === undefined || (time === undefined && !dateAlone)) {
    const forms = `2026-11-28T17:00 or 2026-11-28T17:00:00-06:00${dateAlone ? ' or 2026-11-28' : ''}`
    return `expected a date and time such as ${forms}`
  }
  const year = Number(date.slice(0, 4))
  if ((year < 2000 || year > 2099) && (offset === undefined || !isWithinBounds(text)))
    return `the year ${date.slice(0, 4)} is outside 2000 to 2099`
  if (offset !== undefined && !offsetExists.test(offset)) {
    return `there is no offset ${offset}: its hours go from 00 to 23 and its minutes from 00 to 59`
  }
  if (!DateTime.fromISO(`${date}T${time ?? '00:00'}${offset ?? 'Z'}`, { zone: 'utc' }).isValid) {
    return `there is no such date or time of day: ${text}`
  }
  if (offset !== undefined) return inBounds(DateTime.fromISO(text).toMillis())
  if (time === undefined) return inBounds(DateTime.fromISO(date, { zone }).startOf('day').toMillis())
  const reading = instantFromLocal(zone, `${date}T${time}`)
  return reading.exists ? inBounds(reading.instant) : skippedMessage(zone, date, `${date}T${time}`)
}

/** With an offset the moment counts: late on the last evening of 1999 it is 2000 in Greenwich already. */
const isWithinBounds = (text: string): boolean => Instant.safeParse(DateTime.fromISO(text).toMillis()).success

const inBounds = (moment: number): Instant | string =>
  Instant.safeParse(moment).data ?? 'the moment is outside the years 2000 to 2099'

function skippedMessage(zone: string, date: string, text: string): string {
  const change = changeOver(zone, text)
  const shown = (local: number) => DateTime.fromMillis(local, { zone: 'utc' }).toFormat('HH:mm')
  return (
    `${text.slice(11)} does not exist on ${date} in ${zone}: the clocks go forward from ${shown(change.fromLocal)} ` +
    `to ${shown(change.toLocal)}. Write ${shown(change.meantLocal)} if that much later is meant, ` +
    `or give the offset, such as ${offsetText(change.offsetAfterMinutes)}`
  )
}

/** The clock change that jumps over a local time, with local times as if they were UTC. */
function changeOver(zone: string, text: string) {
  const minute = 60_000
  const offsetAt = (moment: number): number => IANAZone.create(zone).offset(moment)
  const local = DateTime.fromISO(text, { zone: 'utc' }).toMillis()
  let before = Math.floor(local / minute) * minute - 26 * 60 * minute
  let after = before + 52 * 60 * minute
  const offsetBefore = offsetAt(before)
  // The change lies between the two readings of the local time, and zones change on whole minutes.
  while (after - before > minute) {
    const middle = Math.floor((before + after) / 2 / minute) * minute
    if (offsetAt(middle) === offsetBefore) before = middle
    else after = middle
  }
  const offsetAfterMinutes = offsetAt(after)
  return {
    fromLocal: after + offsetBefore * minute,
    toLocal: after + offsetAfterMinutes * minute,
    meantLocal: local + (offsetAfterMinutes - offsetBefore) * minute,
    offsetAfterMinutes,
  }
}

const offsetText = (minutes: number): string =>
  `${minutes < 0 ? '-' : '+'}${DateTime.fromMillis(Math.abs(minutes) * 60_000, { zone: 'utc' }).toFormat('HH:mm')}`
