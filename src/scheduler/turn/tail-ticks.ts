import type { PreparedInstance } from './prepared-instance.ts'

/**
 * For each activity: ticks of work, one thing after the other, that the turn needs at least after its end; below 0 where
 * the turn does not need it at all.
 */
export function tailTicks(problem: PreparedInstance, turn: number): Float64Array {
  const { order, successorFirst, successors, shortestTicks, turnOf } = problem
  const tails = new Float64Array(problem.activityCount)
  for (let position = order.length - 1; position >= 0; position--) {
    const activity = order[position]!
    let tail = turnOf[activity] === turn ? 0 : Number.NEGATIVE_INFINITY
    for (let at = successorFirst[activity]!; at < successorFirst[activity + 1]!; at++) {
      const successor = successors[at]!
      tail = Math.max(tail, tails[successor]! + shortestTicks[successor]!)
    }
    tails[activity] = tail
  }
  return tails
}
