/**
 * The general move of BasicMOST: get something, put it somewhere, come back. Seven index values, A B G A B P A, are
 * added; the sum times ten is the time in TMU.
 * @source Zandin, MOST Work Measurement Systems; every index value from memory
 */
import { numberAbove, numberInRange } from './number-in-range.ts'
import { secondsFromTmu } from './tmu.ts'

export interface ActionDistance {
  readonly index: number
  readonly text: string
  /** The most steps with this index; 0 where none is taken. */
  readonly stepsMost: number
  /** One way; null where the table gives only steps. */
  readonly metresMost: number | null
  readonly source: string
}

export interface GeneralMoveIndex {
  readonly index: number
  readonly text: string
  readonly source: string
}

const SOURCE = 'BasicMOST general move, Zandin, MOST Work Measurement Systems; from memory'

const action = (
  index: number,
  text: string,
  stepsMost: number,
  metresMost: number | null = null,
): ActionDistance => ({ index, text, stepsMost, metresMost, source: SOURCE })

/** A: how far the hands or the body go. Ascending. */
export const ACTION_DISTANCES: readonly ActionDistance[] = [
  action(0, 'at most 5 cm (2 in)', 0, 0.05),
  action(1, 'within reach', 0),
  action(3, '1 or 2 steps', 2),
  action(6, '3 or 4 steps', 4),
  action(10, '5 to 7 steps', 7),
  action(16, '8 to 10 steps', 10),
  action(24, '11 to 15 steps', 15, 12),
  action(32, '16 to 20 steps', 20, 15),
  action(42, '21 to 26 steps', 26, 20),
  action(54, '27 to 33 steps', 33, 25),
  action(67, '34 to 40 steps', 40, 30),
  action(81, '41 to 49 steps', 49, 38),
  action(96, '50 to 57 steps', 57, 44),
  action(113, '58 to 67 steps', 67, 51),
  action(131, '68 to 78 steps', 78, 59),
  action(152, '79 to 90 steps', 90, 69),
]

const index = (value: number, text: string): GeneralMoveIndex => ({ index: value, text, source: SOURCE })

/** B: what the whole body does. */
export const BODY_MOTIONS: readonly GeneralMoveIndex[] = [
  index(0, 'none'),
  index(3, 'sit or stand; bend and rise half the time'),
  index(6, 'bend and rise'),
  index(10, 'sit or stand with adjustments'),
  index(16, 'stand and bend; climb on or off; through a door'),
]

/** G: getting hold of it. */
export const GAIN_CONTROL: readonly GeneralMoveIndex[] = [
  index(0, 'none'),
  index(1, 'a light object; light objects together'),
  index(3, 'heavy, bulky, out of sight, obstructed; disengage; collect'),
]

/** P: putting it down. */
export const PLACEMENTS: readonly GeneralMoveIndex[] = [
  index(0, 'hold or toss'),
  index(1, 'lay aside; loose fit'),
  index(3, 'adjust; light pressure; twice'),
  index(6, 'with care, precision or heavy pressure; out of sight'),
]

const PARTS = ['A', 'B', 'G', 'A', 'B', 'P', 'A'] as const
const indicesAllowed: Readonly<Record<(typeof PARTS)[number], readonly number[]>> = {
  A: ACTION_DISTANCES.map((row) => row.index),
  B: BODY_MOTIONS.map((row) => row.index),
  G: GAIN_CONTROL.map((row) => row.index),
  P: PLACEMENTS.map((row) => row.index),
}

/**
 * The index of a general move in the notation of its tables.
 * @param sequence  seven parts such as `A6 B6 G1 A1 B0 P1 A0`
 * @returns the sum of the index values
 * @throws RangeError naming the part, when one is missing, out of order or not in its table
 */
export function generalMoveIndex(sequence: string): number {
  const parts = sequence.trim().split(/\s+/)
  if (parts.length !== PARTS.length) {
    throw new RangeError(`a general move has the parts ${PARTS.join(' ')}, not ${sequence}`)
  }
  return PARTS.reduce((sum, letter, position) => {
    const part = parts[position]!
    const value = indicesAllowed[letter].find((allowed) => part === `${letter}${allowed}`)
    if (value === undefined) {
      throw new RangeError(`part ${position + 1} must be ${letter} with an index of its table, not ${part}`)
    }
    return sum + value
  }, 0)
}

/**
 * @param moveIndex  sum of index values, 0 or more
 * @returns seconds
 * @throws RangeError for what is negative or no number
 */
export const indexSeconds = (moveIndex: number): number =>
  secondsFromTmu(numberInRange('moveIndex', moveIndex, 0) * 10)

/**
 * @param steps  whole or not, above 0
 * @returns the index; null for a walk longer than the table
 * @throws RangeError for what is not above 0 or no number
 */
export function actionIndexForSteps(steps: number): number | null {
  numberAbove('steps', steps, 0)
  return ACTION_DISTANCES.find((row) => steps <= row.stepsMost)?.index ?? null
}

/** What a step comes to in the short walks, for which the table names steps only. */
const METRES_PER_STEP = 0.75

/**
 * @param distanceMetres  one way, above 0; up to ten steps are counted at 0.75 m each
 * @returns the index; null for a walk longer than the table
 * @throws RangeError for what is not above 0 or no number
 */
export function actionIndexForMetres(distanceMetres: number): number | null {
  const steps = Math.ceil(numberAbove('distanceMetres', distanceMetres, 0) / METRES_PER_STEP)
  if (steps <= 10) return actionIndexForSteps(steps)
  return (
    ACTION_DISTANCES.find((row) => row.metresMost !== null && distanceMetres <= row.metresMost)?.index ?? null
  )
}
