/** How long a hall takes to become warm or cool, and to be aired after a full house. */
import { numberAbove, numberInRange } from '../work-measurement/number-in-range.ts'
import type { SourcedSpan } from './sourced-span.ts'

export const ROOM_AIR_SPANS = {
  heatOrCoolFromSetback: {
    what: 'heating or cooling from setback; learn it, as optimal start does',
    leastSeconds: 1800,
    mostSeconds: 7200,
    source: 'common practice, no source',
  },
  heatWithoutReserve: {
    what: 'heating without reserve capacity: about an hour, more in deep cold',
    leastSeconds: 3600,
    mostSeconds: 3600,
    source: 'eng-tips.com thread 449231; read',
  },
  airOut: {
    what: 'airing out after a full house, three air changes',
    leastSeconds: 1200,
    mostSeconds: 3600,
    source: 'common practice, no source',
  },
} as const satisfies Record<string, SourcedSpan>

const AIR_OUT_CHANGES = 3

/**
 * @param airChangesPerHour  of the ventilation as it runs then, above 0
 * @param airChanges         how often the air is to be replaced, 0 or more
 * @returns seconds, rounded up
 * @throws RangeError for what is out of range or no number
 */
export const airOutSeconds = (airChangesPerHour: number, airChanges: number = AIR_OUT_CHANGES): number =>
  Math.ceil(
    (numberInRange('airChanges', airChanges, 0) / numberAbove('airChangesPerHour', airChangesPerHour, 0)) *
      3600,
  )
