/** Small random changes of the list and the modes about to be scheduled. */
import { type Direction, precedes } from './precedence.ts'
import type { Work } from './work.ts'

const furthestMove = 8

/** Moves tasks up to eight places ahead in the list, no further than their predecessors allow. */
export function mutateList(work: Work, direction: Direction, movesPerHundred: number): void {
  const { list, random, problem } = work
  for (let left = drawnCount(work, movesPerHundred, 100); left > 0; left--) {
    const at = random.below(problem.taskCount)
    const task = list[at]!
    const least = Math.max(0, at - 1 - random.below(furthestMove))
    let to = at
    while (to > least && !precedes(direction, list[to - 1]!, task)) {
      list[to] = list[to - 1]!
      to--
    }
    list[to] = task
  }
}

/** Gives tasks a random mode. */
export function mutateModes(work: Work, perMille: number): void {
  const { modes, random, problem } = work
  if (!problem.hasChoice) return
  for (let left = drawnCount(work, problem.taskCount * perMille, 1000); left > 0; left--) {
    const task = random.below(problem.taskCount)
    modes[task] =
      problem.modesFrom[task]! + random.below(problem.modesFrom[task + 1]! - problem.modesFrom[task]!)
  }
}

/** `amount / parts` on average: its whole part, and one more as often as the rest asks. */
function drawnCount(work: Work, amount: number, parts: number): number {
  return Math.floor(amount / parts) + (work.random.below(parts) < amount % parts ? 1 : 0)
}
