/** Small random changes of the list and the modes about to be scheduled. */
import { type Direction, precedes } from './precedence.ts'
import type { Work } from './work.ts'

const furthestMove = 8

/** Moves tasks up to eight places ahead in the list, no further than their predecessors allow. */
export function mutateList(work: Work, direction: Direction, perMille: number): void {
  const { list, random, problem } = work
  for (let left = drawnCount(work, perMille); left > 0; left--) {
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
  for (let left = drawnCount(work, perMille); left > 0; left--) {
    const task = random.below(problem.taskCount)
    modes[task] =
      problem.modesFrom[task]! + random.below(problem.modesFrom[task + 1]! - problem.modesFrom[task]!)
  }
}

/** So many tasks that `perMille` of them are meant on average; one dice instead of one a task. */
function drawnCount(work: Work, perMille: number): number {
  const thousandths = work.problem.taskCount * perMille
  return Math.floor(thousandths / 1000) + (work.random.below(1000) < thousandths % 1000 ? 1 : 0)
}
