/** The plan that `solve` answers with where nothing but resources, consumables and precedence decides. */
import type { TurnInstance } from '../instance.ts'
import type { PlanSearched, SolveOptions } from '../solve-question.ts'
import type { PlainInstance } from './plain-instance.ts'
import { plainPlan } from './plain-plan.ts'

export function plainPlanFound(
  { turns, activities }: TurnInstance,
  plain: PlainInstance,
  boundTick: number,
  { workMost, seed, acceptableReadyTicks, goOn = () => true }: SolveOptions,
): PlanSearched {
  const { releaseTick } = turns[0]!
  const readyTickWanted = Math.max(boundTick, acceptableReadyTicks?.[0] ?? boundTick)
  const ticksWanted = readyTickWanted - releaseTick
  const { plan, workDone } = plainPlan(plain, { workMost, seed, ticksWanted, goOn })
  const readyTick = plan && releaseTick + plan.ticks
  return {
    schedule: plan && {
      activities: plan.starts.map((start, activity) => {
        const mode = plan.modes[activity]!
        const startTick = releaseTick + start
        const endTick = startTick + activities[activity]!.modes[mode]!.durationTicks
        return { activity, mode, startTick, endTick, lanes: [] }
      }),
      readyTicks: [releaseTick + plan.ticks],
    },
    workDone,
    exhausted: readyTick === null || readyTick > readyTickWanted,
  }
}
