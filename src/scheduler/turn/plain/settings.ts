/** The numbers of the search. They follow from the size of the instance and the budget alone. */
import type { Problem } from './problem.ts'

export interface Settings {
  readonly populationSize: number
  readonly childrenPerParent: number
  /** Generations without a better makespan until the search starts afresh. */
  readonly patienceGenerations: number
  /** Every so many fresh starts are made of the best of the starts before. At most 16. */
  readonly startsPerReunion: number
  readonly moveTaskPerMille: number
  readonly changeModePerMille: number
  readonly chooseModeSixteenths: number
  readonly replaceWindowPerMille: number
  readonly leastWindowPerMille: number
  readonly largestWindowPerMille: number
  /** Share of the first lists that are scheduled by the parallel pass. */
  readonly parallelPerMille: number
  readonly isSteep: boolean
}

/** `budget` is the number of schedules that may be generated. */
export function settingsFor(problem: Problem, budget: number): Settings {
  const { taskCount, hasChoice } = problem
  return {
    populationSize: Math.max(
      8,
      Math.min((hasChoice ? 6 : 2) * taskCount, Math.floor(Math.sqrt(budget) * 0.8)),
    ),
    childrenPerParent: 2,
    patienceGenerations: 20,
    startsPerReunion: 4,
    moveTaskPerMille: hasChoice ? 20 : 10,
    changeModePerMille: hasChoice ? 5 : 0,
    chooseModeSixteenths: hasChoice ? 5 : 0,
    replaceWindowPerMille: 150,
    leastWindowPerMille: 150,
    largestWindowPerMille: 600,
    parallelPerMille: budget < 100 * taskCount ? 500 : 0,
    isSteep: budget < 10 * taskCount,
  }
}
