/**
 * Forward-backward improvement (double justification, Valls, Ballestín and Quintanilla 2005): push everything as late
 * as the present ready ticks allow, latest end first, then everything as early as it goes, earliest start first.
 * Work that was in the way moves behind what it held up. Repeated while it helps.
 */

import { emptyDraft } from './draft.ts'
import { type FoundPlan, foundPlan, isBetter } from './found-plan.ts'
import type { ScheduleGenerator } from './schedule-generation.ts'
import { TickOrder } from './tick-order.ts'

/** Counts the schedules made. */
export interface Effort {
  readonly workMost: number
  workDone: number
  /** Asked between schedules; left out: always. */
  readonly goOn?: (() => boolean) | undefined
}

export const workLeft = ({ workMost, workDone, goOn }: Effort): number =>
  goOn && workDone > 0 && !goOn() ? 0 : workMost - workDone

export class Improvement {
  private readonly generator: ScheduleGenerator
  private readonly effort: Effort
  private readonly isGoodEnough: (plan: FoundPlan) => boolean
  private readonly order: TickOrder
  private readonly lateStarts: Int32Array

  constructor(generator: ScheduleGenerator, effort: Effort, isGoodEnough: (plan: FoundPlan) => boolean) {
    this.generator = generator
    this.effort = effort
    this.isGoodEnough = isGoodEnough
    this.order = new TickOrder(generator.problem)
    this.lateStarts = new Int32Array(generator.problem.activityCount)
  }

  /**
   * @param wishes for the modes (`wishNumber`); the backward pass first keeps the modes of the plan
   * @returns the plan itself when nothing better was found; every pass counts one, never more than the effort allows
   */
  improved(plan: FoundPlan, wishes: Int32Array): FoundPlan {
    const { generator, effort, order, lateStarts } = this
    const { problem } = generator
    let best = plan
    while (workLeft(effort) >= 1 && !this.isGoodEnough(best)) {
      effort.workDone += 1
      const { ends, modes } = best.draft
      const late = generator.mirroredBackward(order.latestFirst(ends), modes, best.readyTicks)
      // An effort that ends here ends here: what more effort finds then begins with the same steps, and is never worse.
      if (!late || workLeft(effort) < 1) return best
      for (let activity = 0; activity < lateStarts.length; activity++) {
        lateStarts[activity] = problem.horizonTick - late.ends[activity]!
      }
      effort.workDone += 1
      const draft = emptyDraft(problem)
      if (!generator.writeForward(order.earliestFirst(lateStarts), wishes, draft)) return best
      const again = foundPlan(problem, draft)
      if (!isBetter(again, best)) return best
      best = again
    }
    return best
  }
}
