import type { PreparedInstance } from '../prepared-instance.ts'

/** By activity: ticks of work of the same turn, one after the other, that come at least after its end. */
export function tailTicksOf({
  activityCount,
  order,
  successorFirst,
  successors,
  shortestTicks,
  turnOf,
}: PreparedInstance): Int32Array {
  const tails = new Int32Array(activityCount)
  for (let position = order.length - 1; position >= 0; position--) {
    const activity = order[position]!
    for (let at = successorFirst[activity]!; at < successorFirst[activity + 1]!; at++) {
      const successor = successors[at]!
      if (turnOf[successor] !== turnOf[activity]) continue
      tails[activity] = Math.max(tails[activity]!, shortestTicks[successor]! + tails[successor]!)
    }
  }
  return tails
}
