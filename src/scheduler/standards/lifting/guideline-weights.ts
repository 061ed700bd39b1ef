/**
 * The British guideline weights for lifting by hand. They are a filter and not a limit: below them nearly nobody needs
 * to look closer, above them, or when a lift is repeated for long, somebody should.
 */
import { numberInRange } from '../work-measurement/number-in-range.ts'

export type LiftingPerson = 'man' | 'woman'

/** Where the hands are, from the top down. */
export type HandZone =
  | 'shoulder-to-head'
  | 'elbow-to-shoulder'
  | 'knuckle-to-elbow'
  | 'mid-shin-to-knuckle'
  | 'floor-to-mid-shin'

export type Reach = 'close' | 'arms-length'

export interface GuidelineWeight {
  readonly person: LiftingPerson
  readonly reach: Reach
  readonly zone: HandZone
  readonly kilograms: number
  readonly source: string
}

const MEMORY = 'HSE L23 and INDG143; from memory'
const MEN_BEST = 'HSE L23 and INDG143, 25 kg as quoted by two pages on safe weights; second-hand'
const MEN_HEAD = 'HSE L23 and INDG143, 5 kg at head height as quoted by a training firm; second-hand'
const WOMEN_BEST = 'HSE L23 and INDG143, 16 kg as quoted by a page on safe weights; second-hand'

const weight = (
  person: LiftingPerson,
  reach: Reach,
  zone: HandZone,
  kilograms: number,
  source: string = MEMORY,
): GuidelineWeight => ({ person, reach, zone, kilograms, source })

export const GUIDELINE_WEIGHTS: readonly GuidelineWeight[] = [
  weight('man', 'close', 'shoulder-to-head', 10),
  weight('man', 'close', 'elbow-to-shoulder', 20),
  weight('man', 'close', 'knuckle-to-elbow', 25, MEN_BEST),
  weight('man', 'close', 'mid-shin-to-knuckle', 20),
  weight('man', 'close', 'floor-to-mid-shin', 10),
  weight('man', 'arms-length', 'shoulder-to-head', 5, MEN_HEAD),
  weight('man', 'arms-length', 'elbow-to-shoulder', 10),
  weight('man', 'arms-length', 'knuckle-to-elbow', 15),
  weight('man', 'arms-length', 'mid-shin-to-knuckle', 10),
  weight('man', 'arms-length', 'floor-to-mid-shin', 5),
  weight('woman', 'close', 'shoulder-to-head', 7),
  weight('woman', 'close', 'elbow-to-shoulder', 13),
  weight('woman', 'close', 'knuckle-to-elbow', 16, WOMEN_BEST),
  weight('woman', 'close', 'mid-shin-to-knuckle', 13),
  weight('woman', 'close', 'floor-to-mid-shin', 7),
  weight('woman', 'arms-length', 'shoulder-to-head', 3),
  weight('woman', 'arms-length', 'elbow-to-shoulder', 7),
  weight('woman', 'arms-length', 'knuckle-to-elbow', 10),
  weight('woman', 'arms-length', 'mid-shin-to-knuckle', 7),
  weight('woman', 'arms-length', 'floor-to-mid-shin', 3),
]

/** Somebody under 18, or pregnant, needs an assessment of their own; until then half of what an adult may lift. */
export const MINOR_SHARE_OF_ADULT = 0.5
export const MINOR_SHARE_SOURCE =
  'the duty to assess young people apart is from memory; half of the adult figure: common practice, no source'

export const REPETITION_SOURCE = 'HSE L23 and INDG143; from memory'

/**
 * What is left of a guideline weight when the lift is repeated: 0.7 for once or twice a minute, 0.5 for 5 to 8 times,
 * 0.2 above 12. Between those steps nothing is stated; the cautious step, the next lower one, is taken.
 * @param liftsPerMinute  0 or more; less than once a minute leaves the whole weight
 * @throws RangeError for what is negative or no number
 */
export function repetitionFactor(liftsPerMinute: number): number {
  numberInRange('liftsPerMinute', liftsPerMinute, 0)
  if (liftsPerMinute < 1) return 1
  if (liftsPerMinute <= 2) return 0.7
  return liftsPerMinute <= 8 ? 0.5 : 0.2
}

export interface GuidelineLift {
  readonly person: LiftingPerson
  readonly reach: Reach
  readonly zone: HandZone
  /** 0 or more. */
  readonly liftsPerMinute: number
  readonly minor: boolean
}

/**
 * What one person may lift before somebody should look closer.
 * @returns kilograms, above 0
 * @throws RangeError for a negative frequency or one that is no number
 */
export function guidelineKilograms(lift: GuidelineLift): number {
  const row = GUIDELINE_WEIGHTS.find(
    ({ person, reach, zone }) => person === lift.person && reach === lift.reach && zone === lift.zone,
  )
  if (!row) throw new RangeError(`no guideline weight for ${lift.person}, ${lift.reach}, ${lift.zone}`)
  const share = lift.minor ? MINOR_SHARE_OF_ADULT : 1
  return row.kilograms * repetitionFactor(lift.liftsPerMinute) * share
}
