/** From the program's values to what travels: moments become ISO 8601 text with the offset of the site's zone. */

import type { Instant } from '../domain/instant.ts'
import { isoInZone } from '../scheduler/timeline/wall-time.ts'

/** `doorsAt`, `since`, `warnedSince`. */
const isMomentField = (name: string): boolean => /(At|[sS]ince)$/.test(name)

/**
 * The same value, with every number in a field that ends in `At` or `Since` written as ISO 8601 in the zone, at any depth.
 * Fields that are undefined are left out, as JSON does.
 * @param zone  IANA zone that exists
 */
export function wire(value: unknown, zone: string): unknown {
  if (Array.isArray(value)) return value.map((item) => wire(item, zone))
  if (typeof value !== 'object' || value === null) return value
  const onWire: Record<string, unknown> = {}
  for (const [name, field] of Object.entries(value)) {
    onWire[name] =
      typeof field === 'number' && isMomentField(name) ? momentText(field, zone) : wire(field, zone)
  }
  return onWire
}

// Not parsed: what the store and the core give was parsed on its way in.
const momentText = (moment: number, zone: string): string => isoInZone(moment as Instant, zone)
