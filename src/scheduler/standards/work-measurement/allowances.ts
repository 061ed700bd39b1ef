/** From the time that was seen to the time that can be planned with. */
import { numberAbove, numberInRange } from './number-in-range.ts'

export interface AllowanceFigure {
  readonly what: string
  /** Of the work time. */
  readonly leastShare: number
  readonly mostShare: number
  readonly source: string
}

const ILO = 'ILO table of rest allowances, as in Niebel; from memory'
const PRACTICE = 'common practice, no source'

/** The ILO figures are called logical in the trade, and open to many questions. */
export const ALLOWANCE_FIGURES = {
  personal: {
    what: 'personal needs (24 min in 480)',
    leastShare: 0.05,
    mostShare: 0.05,
    source: 'Course text on time standards: allowances, June 2016; read',
  },
  personalWomen: {
    what: 'personal needs, women, in the ILO table (men 5 %)',
    leastShare: 0.07,
    mostShare: 0.07,
    source: ILO,
  },
  basicFatigue: { what: 'basic fatigue', leastShare: 0.04, mostShare: 0.04, source: ILO },
  standing: { what: 'standing', leastShare: 0.02, mostShare: 0.02, source: ILO },
  lifting10Pounds: { what: 'lifting 10 lb', leastShare: 0.01, mostShare: 0.01, source: ILO },
  lifting20Pounds: { what: 'lifting 20 lb', leastShare: 0.03, mostShare: 0.03, source: ILO },
  lifting30Pounds: { what: 'lifting 30 lb', leastShare: 0.05, mostShare: 0.05, source: ILO },
  lifting40Pounds: { what: 'lifting 40 lb', leastShare: 0.09, mostShare: 0.09, source: ILO },
  lifting50Pounds: { what: 'lifting 50 lb', leastShare: 0.13, mostShare: 0.13, source: ILO },
  delays: { what: 'delays nobody can help', leastShare: 0.02, mostShare: 0.05, source: PRACTICE },
  lightToMediumWork: {
    what: 'personal needs, fatigue and delay together, light to medium work',
    leastShare: 0.1,
    mostShare: 0.15,
    source: PRACTICE,
  },
  heavyFurniture: {
    what: 'personal needs, fatigue and delay together, heavy furniture',
    leastShare: 0.15,
    mostShare: 0.2,
    source: PRACTICE,
  },
} as const satisfies Record<string, AllowanceFigure>

/** The time of volunteers who do it for the first time, over that of a practised crew. */
export const VOLUNTEER_PACE = { leastFactor: 1.3, mostFactor: 2, source: PRACTICE } as const

/**
 * @param observedSeconds  0 or more
 * @param rating           the pace seen over normal pace, above 0
 * @throws RangeError for what is out of range or no number
 * @source Konz, Rest Allowances; second-hand
 */
export const normalSeconds = (observedSeconds: number, rating: number): number =>
  numberInRange('observedSeconds', observedSeconds, 0) * numberAbove('rating', rating, 0)

export interface Allowance {
  readonly share: number
  /** `work`: so much on top of the work. `shift`: so much of the shift is not work. */
  readonly of: 'work' | 'shift'
}

/**
 * @param workSeconds  at normal pace, 0 or more
 * @param allowance    a share of the work, 0 or more, or of the shift, from 0 to less than 1
 * @returns seconds; 0 for no work
 * @throws RangeError for what is out of range or no number
 * @source Course text on time standards: allowances, June 2016; read
 */
export function standardSeconds(workSeconds: number, allowance: Allowance): number {
  numberInRange('workSeconds', workSeconds, 0)
  const share = numberInRange('allowance.share', allowance.share, 0)
  if (allowance.of === 'work') return workSeconds * (1 + share)
  return workSeconds / numberAbove('1 − allowance.share', 1 - share, 0)
}
