/** Light on the way out, at the floor. The local code decides; check the edition adopted there. */
import { numberInRange } from '../work-measurement/number-in-range.ts'

export interface EgressLight {
  readonly when: string
  readonly leastFootCandles: number
  readonly source: string
}

const FIRE_ADMINISTRATION = 'US Fire Administration, Coffee Break Training 2007-11; read'
const NEW_YORK = 'New York City Building Code 1008.3.5; read'

export const EGRESS_LIGHT = {
  occupied: {
    when: 'while people are in the building',
    leastFootCandles: 1,
    source:
      'US Fire Administration, Coffee Break Training 2007-11, and New York City Building Code 1008.3; read',
  },
  performance: {
    when: 'assembly room during a performance',
    leastFootCandles: 0.2,
    source: FIRE_ADMINISTRATION,
  },
  newStairsInUse: {
    when: 'new stairs while in use (NFPA)',
    leastFootCandles: 10,
    source: FIRE_ADMINISTRATION,
  },
  emergencyStartAverage: {
    when: 'emergency light at its start, on average',
    leastFootCandles: 1,
    source: NEW_YORK,
  },
  emergencyStartAnyPoint: {
    when: 'emergency light at its start, at any point',
    leastFootCandles: 0.1,
    source: NEW_YORK,
  },
  emergencyEndAverage: {
    when: 'emergency light at its end, on average',
    leastFootCandles: 0.6,
    source: NEW_YORK,
  },
  emergencyEndAnyPoint: {
    when: 'emergency light at its end, at any point',
    leastFootCandles: 0.06,
    source: NEW_YORK,
  },
} as const satisfies Record<string, EgressLight>

/** Brightest over darkest point of the emergency light. */
export const EMERGENCY_LIGHT_RATIO_MOST = { ratio: 40, source: NEW_YORK } as const
export const EMERGENCY_LIGHT_LEAST = {
  seconds: 5400,
  source: 'coderedconsultants.com, means of egress lighting 101; second-hand',
} as const

const LUX_PER_FOOT_CANDLE = 10.764

/**
 * @param footCandles  0 or more
 * @returns lux
 * @throws RangeError for what is negative or no number
 */
export const luxFromFootCandles = (footCandles: number): number =>
  numberInRange('footCandles', footCandles, 0) * LUX_PER_FOOT_CANDLE
