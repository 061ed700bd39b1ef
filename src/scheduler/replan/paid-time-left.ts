/** What of the paid time that a turn may take is left, once some of its work is done or going on. */
import type { Instant } from '../../domain/instant.ts'
import { laterOf, secondsBetween } from '../../domain/instant.ts'
import type { Plan } from '../../domain/plan.ts'
import type { TurnProgress } from '../../domain/turn-progress.ts'
import type { BuiltInstance } from '../decide/plan/built-instance.ts'
import { lanesOnDuty } from '../timeline/lanes-on-duty.ts'
import type { World } from '../timeline/world.ts'
import { TICK_SECONDS } from '../turn/index.ts'
import type { RunningNow } from './running-now.ts'

/**
 * By those of the plan who are paid; those at a task as told where that was told. Work that is done counts from when it was
 * planned to begin until it was done, or as planned where nobody said; work that goes on until it will be done.
 */
export function paidSecondsWorked(
  { setup }: World,
  plan: Plan,
  done: TurnProgress['done'],
  running: readonly RunningNow[],
  untilAt: Instant,
): number {
  const paid = new Set(
    lanesOnDuty(setup, { fromAt: plan.startsAt, toAt: laterOf(untilAt, plan.startsAt) })
      .filter((lane) => lane.paid)
      .map(({ laneId }) => laneId),
  )
  const doneAt = new Map(done.map((one) => [one.taskKey, one.doneAt]))
  const runs = new Map(running.map(({ task }) => [task.key, task]))
  return plan.tasks.reduce((sum, planned) => {
    const { key, startsAt } = planned
    const task = runs.get(key) ?? planned
    if (!runs.has(key) && !doneAt.has(key)) return sum
    const endsAt = runs.get(key)?.endsAt ?? doneAt.get(key) ?? planned.endsAt
    const hands = task.laneIds.filter((laneId) => paid.has(laneId)).length
    return sum + hands * Math.max(0, secondsBetween(startsAt, endsAt))
  }, 0)
}

/** The same question with so much less paid time. */
export function withPaidTimeWorked(built: BuiltInstance, paidSeconds: number): BuiltInstance {
  const { instance } = built
  if (instance.budgets === undefined) return built
  const ticks = Math.ceil(paidSeconds / TICK_SECONDS)
  const budgets = instance.budgets.map((budget) => ({
    ...budget,
    laneTicksMost: Math.max(0, budget.laneTicksMost - ticks),
  }))
  return { ...built, instance: { ...instance, budgets } }
}
