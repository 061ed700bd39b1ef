/** In which mode an activity is done, when it may begin at a tick. */
import { NEVER } from '../far-tick.ts'
import type { PlaceFinder } from './place-finder.ts'

/**
 * How the mode of an activity is chosen, ties to fewer person-ticks, then fewer hands:
 * - `earliest-end`: it is done soonest;
 * - `fewest-person-ticks`: it costs least work, ties to the sooner end;
 * - `balanced`: soonest when the work is added as if the whole crew shared it (end + person-ticks / lanes), so that
 *   many hands are taken only where they pay;
 * - `hurried`: the same as if twice the crew shared it.
 */
export type ModeRule = 'balanced' | 'earliest-end' | 'fewest-person-ticks' | 'hurried'
export const modeRules: readonly ModeRule[] = ['balanced', 'earliest-end', 'fewest-person-ticks', 'hurried']

/** For each activity a rule, or the number of a mode (as counted over the whole instance) to take if it can be. */
export type ModeWishes = readonly (ModeRule | number)[]

/** A wish as one number: a mode, or a rule as -1 less its place in `modeRules`. */
export const wishNumber = (wish: ModeRule | number): number =>
  typeof wish === 'number' ? wish : -1 - modeRules.indexOf(wish)

const EARLIEST_END = wishNumber('earliest-end')
/** By place in `modeRules`: the score to be least is so many times the end, a lane, and so many times the person-ticks. */
const END_TIMES = [1, 1, 0, 2]
const WORK_TIMES = [1, 0, 1, 1]

export class ModeChoice {
  /** Of the activity asked about last; -1 when no mode finds a place. */
  mode = -1
  start = NEVER
  private readonly finder: PlaceFinder

  constructor(finder: PlaceFinder) {
    this.finder = finder
  }

  /** @param wish see `wishNumber`; a mode that finds no place is as good as the wish to end earliest */
  choose(activity: number, wish: number, from: number, latestEnd: number): void {
    if (wish >= 0) {
      this.mode = wish
      this.start = this.finder.earliestStart(activity, wish, from, latestEnd)
      if (this.start !== NEVER) return
    }
    this.chooseBy(wish < 0 ? wish : EARLIEST_END, activity, from, latestEnd)
  }

  private chooseBy(rule: number, activity: number, from: number, latestEnd: number): void {
    const { finder } = this
    const { modesShortestFirst, modeFirst, modeTicks, modeHands, modePersonTicks, laneCount } = finder.problem
    // One score for all rules: shares of the end and of the person-ticks; what is left decides ties.
    const endShare = END_TIMES[-1 - rule]! * laneCount
    const workShare = WORK_TIMES[-1 - rule]!
    let best = -1
    let bestStart = NEVER
    let bestScore = 0
    let bestEnd = 0
    for (let at = modeFirst[activity]!; at < modeFirst[activity + 1]!; at++) {
      const mode = modesShortestFirst[at]!
      const ticks = modeTicks[mode]!
      const work = modePersonTicks[mode]!
      let end = latestEnd
      if (best >= 0) {
        // Whatever ends later than this is not better.
        const scoreLeft = bestScore - work * workShare
        if (scoreLeft < (from + ticks) * endShare) continue
        const last = endShare > 0 ? Math.floor(scoreLeft / endShare) : scoreLeft > 0 ? latestEnd : bestEnd
        if (last < end) end = last
      }
      const start = finder.earliestStart(activity, mode, from, end)
      if (start === NEVER) continue
      end = start + ticks
      const score = end * endShare + work * workShare
      const better =
        best < 0 ||
        score < bestScore ||
        (score === bestScore &&
          (rule === EARLIEST_END
            ? work - modePersonTicks[best]! || modeHands[mode]! - modeHands[best]!
            : end - bestEnd || modeHands[mode]! - modeHands[best]!) < 0)
      if (!better) continue
      best = mode
      bestStart = start
      bestScore = score
      bestEnd = end
    }
    this.mode = best
    this.start = bestStart
  }
}
