/**
 * Forward-backward improvement (double justification, Valls, Ballestín and Quintanilla 2005): push everything as late
 * as the present ready ticks allow, latest end first, then everything as early as it goes, earliest start first.
 * Work that was in the way moves behind what it held up. Repeated while it helps.
 */
import { type FoundPlan, foundPlan, isBetter } from './found-plan.ts'
import type { ModeWishes, ScheduleGenerator } from './schedule-generation.ts'

/** Counts the schedules made. */
export interface Effort {
  readonly workMost: number
  workDone: number
  /** Asked between schedules; left out: always. */
  readonly goOn?: (() => boolean) | undefined
}

export const workLeft = ({ workMost, workDone, goOn }: Effort): number =>
  goOn && workDone > 0 && !goOn() ? 0 : workMost - workDone

/**
 * @param wishes for the modes; the backward pass first keeps the modes of the plan
 * @returns the plan itself when nothing better was found; every pass counts one, never more than the effort allows
 */
export function improved(
  generator: ScheduleGenerator,
  plan: FoundPlan,
  wishes: ModeWishes,
  effort: Effort,
  isGoodEnough: (plan: FoundPlan) => boolean,
): FoundPlan {
  const { problem } = generator
  let best = plan
  while (workLeft(effort) >= 1 && !isGoodEnough(best)) {
    effort.workDone += 1
    const late = generator.backward(
      byTickThenRank(best.draft.ends, problem.rank).reverse(),
      Array.from(best.draft.modes),
      best.readyTicks,
    )
    // An effort that ends here ends here: what more effort finds then begins with the same steps, and is never worse.
    if (!late || workLeft(effort) < 1) return best
    effort.workDone += 1
    const draft = generator.forward(byTickThenRank(late.starts, problem.rank), wishes)
    if (!draft) return best
    const again = foundPlan(problem, draft)
    if (!isBetter(again, best)) return best
    best = again
  }
  return best
}

/** Activities by tick; those at the same tick as precedence wants them. */
export function byTickThenRank(ticks: ArrayLike<number>, rank: Int32Array): number[] {
  return Array.from(ticks, (_, activity) => activity).sort(
    (a, b) => ticks[a]! - ticks[b]! || rank[a]! - rank[b]!,
  )
}
