/** Below its lowest stable level a dimmed light flickers, stays where it is or goes dark: off, or at least that level. */
import { numberInRange } from '../work-measurement/number-in-range.ts'

export interface DimmerFact {
  readonly text: string
  readonly source: string
}

export const DIMMER_FACTS = {
  architectural: {
    text: 'IEC 60929 Annex E (0-10 V, for LED also ANSI C137.1): the driver feeds the line, the control draws it down. 10 V is full, below 1 V the light stays at its minimum.',
    source: 'staging.rayzeek.com, current controlled dimming; second-hand',
  },
  theatrical: {
    text: 'ESTA E1.3 (theatre 0-10 V): the control feeds the line and 0 V is zero. Never mix it with the other kind.',
    source: 'staging.rayzeek.com and euchips.us on 0-10 V dimming; second-hand',
  },
  switchedOff: {
    text: 'Off needs a relay on the mains side, unless the driver says that it dims to off.',
    source: 'kenon-digi.com, analog 1-10 V; read',
  },
} as const satisfies Record<string, DimmerFact>

export interface LowestLevel {
  readonly what: string
  readonly leastPercent: number
  readonly mostPercent: number
  readonly source: string
}

/** Drivers differ, so this is a setting of each device; these are where to start. */
export const LOWEST_LEVELS = {
  ordinaryDriver: {
    what: 'ordinary driver: 10 % power; some go dark below it',
    leastPercent: 10,
    mostPercent: 10,
    source: 'thelightingfactory.com, 1-10V LED dimming; read',
  },
  deepDimmingDriver: {
    what: 'better driver, at 1 V',
    leastPercent: 1,
    mostPercent: 5,
    source: 'kenon-digi.com, analog 1-10 V; read',
  },
} as const satisfies Record<string, LowestLevel>

export const PERCEIVED_LEVEL_SOURCE =
  'the square-root rule is from memory; a maker says 10 % looks like 15 to 20 %'

/**
 * How bright a measured level looks: roughly the square root.
 * @param levelPercent  0 to 100
 * @returns percent
 * @throws RangeError for what is outside or no number
 */
export const perceivedPercent = (levelPercent: number): number =>
  Math.sqrt(numberInRange('levelPercent', levelPercent, 0, 100) / 100) * 100
