/** Wright's learning curve: with each doubling of the count the time falls to the same share. */
import { numberAbove, numberInRange } from './number-in-range.ts'

/** Manual assembly. */
export const LEARNING_RATE_RANGE = {
  least: 0.8,
  most: 0.9,
  source: 'learning rates of manual assembly; from memory',
} as const

/**
 * @param firstSeconds  0 or more
 * @param repetition    which time it is done, 1 or more
 * @param learningRate  what is left after each doubling, above 0, at most 1
 * @returns seconds
 * @throws RangeError for what is out of range or no number
 * @source Wright, Factors Affecting the Cost of Airplanes, 1936; from memory
 */
export function learntSeconds(firstSeconds: number, repetition: number, learningRate: number): number {
  numberInRange('firstSeconds', firstSeconds, 0)
  numberInRange('repetition', repetition, 1)
  numberInRange('learningRate', numberAbove('learningRate', learningRate, 0), 0, 1)
  return firstSeconds * repetition ** Math.log2(learningRate)
}
