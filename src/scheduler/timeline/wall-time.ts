/**
 * Between the wall clock of a site and instants. A local time that occurs twice means the first; one that does not
 * exist is read with the offset before the gap, so 02:30 becomes 03:30 (RFC 5545, section 3.3.5).
 */
import { DateTime, IANAZone } from 'luxon'
import type { Instant } from '../../domain/instant.ts'
import type { LocalDate, LocalTime } from '../../domain/units.ts'

export interface LocalReading {
  readonly instant: Instant
  /** false: the clock jumps over this time on this day. */
  readonly exists: boolean
}

export const isZone = (zone: string): boolean => IANAZone.isValidZone(zone)

// The same few local times are asked for again and again while weekly patterns are laid out. The readings depend
// on nothing but their key, so remembering them changes no answer; the bound keeps memory flat.
const readings = new Map<string, LocalReading>()
const READINGS_MOST = 20_000

/**
 * @param zone       IANA zone that exists
 * @param localText  `YYYY-MM-DDTHH:MM` or with `:SS`
 * @throws RangeError when the text is not a local date and time, or the zone is unknown
 */
export function instantFromLocal(zone: string, localText: string): LocalReading {
  const key = `${zone}|${localText}`
  const known = readings.get(key)
  if (known) return known
  const local = DateTime.fromISO(localText, { zone })
  if (!local.isValid) throw new RangeError(`not a local date and time in ${zone}: ${localText}`)
  const asked = DateTime.fromISO(localText, { zone: 'utc' })
  const exists = local.hour === asked.hour && local.minute === asked.minute && local.day === asked.day
  const first = exists ? (local.getPossibleOffsets()[0] ?? local) : beforeTheGap(zone, asked)
  const reading = { instant: first.toMillis() as Instant, exists }
  if (readings.size >= READINGS_MOST) readings.clear()
  readings.set(key, reading)
  return reading
}

function beforeTheGap(zone: string, asked: DateTime): DateTime {
  const offsetMinutes = IANAZone.create(zone).offset(asked.minus({ hours: 26 }).toMillis())
  return asked.minus({ minutes: offsetMinutes })
}

export const instantOfLocal = (zone: string, date: LocalDate, time: LocalTime): Instant =>
  instantFromLocal(zone, `${date}T${time}`).instant

/** ISO 8601 with the offset in force at that moment; parts of a second only where there are any. */
export function isoInZone(instant: Instant, zone: string): string {
  const text = DateTime.fromMillis(instant, { zone }).toISO({ suppressMilliseconds: true })
  if (text === null) throw new RangeError(`no such moment in ${zone}: ${instant}`)
  return text
}

/** The calendar day at that moment. */
export function localDateOf(instant: Instant, zone: string): LocalDate {
  return DateTime.fromMillis(instant, { zone }).toFormat('yyyy-MM-dd')
}

/** `HH:MM` by the wall clock at that moment. */
export function localTimeOf(instant: Instant, zone: string): LocalTime {
  return DateTime.fromMillis(instant, { zone }).toFormat('HH:mm')
}

/** `Sat 14 Nov 17:00` */
export function dayAndTimeOf(instant: Instant, zone: string): string {
  return DateTime.fromMillis(instant, { zone }).setLocale('en').toFormat('ccc d LLL HH:mm')
}

const DAY_MS = 86_400_000
/** A calendar day as if it were in UTC: days have no zone, and none of them is shorter there. */
const dayMs = (date: LocalDate): number => Date.parse(`${date}T00:00:00Z`)

/** The day so many days on. */
export const dateAfter = (date: LocalDate, days: number): LocalDate =>
  new Date(dayMs(date) + days * DAY_MS).toISOString().slice(0, 10)

/** ISO 8601: 1 is Monday, 7 is Sunday. */
export const weekdayOf = (date: LocalDate): number => new Date(dayMs(date)).getUTCDay() || 7
