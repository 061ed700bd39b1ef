import { FAR_TICK } from '../far-tick.ts'
import { inverseOf, type PreparedInstance } from '../prepared-instance.ts'

/**
 * The same instance seen backwards in time: tick t becomes horizon - t, predecessors become successors. As early as
 * possible there is as late as possible here, so that one generator serves both directions. Releases stay as they
 * were: what limits a backward pass is handed to it.
 */
export function mirrored(forward: PreparedInstance): PreparedInstance {
  const horizon = forward.horizonTick
  const order = forward.order.slice().reverse()
  return {
    ...forward,
    predecessorFirst: forward.successorFirst,
    predecessors: forward.successors,
    successorFirst: forward.predecessorFirst,
    successors: forward.predecessors,
    order,
    rank: inverseOf(order),
    gaps: forward.gaps.map((gaps) =>
      gaps
        .map((gap) => ({
          from: horizon - gap.to,
          to: horizon - gap.from,
          previousEnd: gap.nextStart === FAR_TICK ? -FAR_TICK : horizon - gap.nextStart,
          previousPlace: gap.nextPlace,
          nextStart: gap.previousEnd === -FAR_TICK ? FAR_TICK : horizon - gap.previousEnd,
          nextPlace: gap.previousPlace,
        }))
        .reverse(),
    ),
    capacity: forward.capacity.map((steps) =>
      steps
        .map((step, index) => {
          const next = steps[index + 1]
          return { fromTick: next ? horizon - next.fromTick : -FAR_TICK, amount: step.amount }
        })
        .reverse(),
    ),
  }
}
