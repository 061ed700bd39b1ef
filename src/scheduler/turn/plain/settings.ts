/**
 * The numbers of the search. They follow from the size of the instance and the budget alone.
 * All were found by measuring on the public sets, none on single instances; the search is not sensitive to them
 * but for the population, which must be about as large as the budget lets it come to agree.
 */
import type { Problem } from './problem.ts'

export interface Settings {
  readonly populationSize: number
  readonly childrenPerParent: number
  /** Parents of two generations before compete with the children: better while tasks are few, worse for many. */
  readonly hasElders: boolean
  readonly likesUnlike: boolean
  /** Generations without a better makespan until the search starts afresh. */
  readonly patienceGenerations: number
  /** Every so many fresh starts are made of the best of the starts before. At least 2. */
  readonly startsPerReunion: number
  readonly movesPerHundredChildren: number
  readonly movesPerHundredCopies: number
  readonly changeModePerMille: number
  readonly chooseModeSixteenths: number
  readonly replaceWindowPerMille: number
  readonly leastWindowPerMille: number
  readonly largestWindowPerMille: number
  /** Share of the first lists that are scheduled by the parallel pass. */
  readonly parallelPerMille: number
  /** First lists follow the longest path more closely: only where there is no time to breed. */
  readonly isSteep: boolean
}

/** `budget` is the number of schedules that may be generated. */
export function settingsFor(problem: Problem, budget: number): Settings {
  const { taskCount, hasChoice } = problem
  const isSmall = taskCount <= 80 && !hasChoice
  /** So few generations that each must count: one child each, from shorter stretches, and good lists to begin with. */
  const isShort = isSmall && budget < 20 * taskCount
  const root = Math.sqrt(budget)
  const size = isSmall ? Math.min(3 * taskCount, Math.floor(1.1 * root)) : Math.floor(0.8 * root)
  return {
    populationSize: Math.max(8, Math.min(size, 4 * taskCount)),
    childrenPerParent: isShort ? 1 : 2,
    hasElders: taskCount <= 80,
    likesUnlike: isSmall && taskCount > 40,
    patienceGenerations: taskCount <= 40 ? 12 : 20,
    startsPerReunion: 4,
    movesPerHundredChildren: budget < 50 * taskCount ? 70 : budget < 100 * taskCount ? 120 : 200,
    movesPerHundredCopies: Math.min(1200, 10 * taskCount),
    changeModePerMille: hasChoice ? 5 : 0,
    chooseModeSixteenths: hasChoice ? 5 : 0,
    replaceWindowPerMille: isShort ? 250 : 150,
    leastWindowPerMille: 150,
    largestWindowPerMille: isShort ? 450 : 600,
    parallelPerMille: isShort ? 800 : budget < 100 * taskCount ? 500 : 0,
    isSteep: isShort || budget < 10 * taskCount,
  }
}
