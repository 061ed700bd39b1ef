/** Whether a turn is late only because no more paid time is allowed for it: looked for as if it were. */
import { solve, TICK_SECONDS, type TurnInstance } from '../../turn/index.ts'
import type { BuiltInstance, BuiltPart } from '../plan/built-instance.ts'

export interface PaidHoursNeeded {
  /** Person-seconds of those who are paid, by the plan found; who costs nothing is still asked first. */
  readonly paidSecondsNeeded: number
}

/** @returns null: there is no cap, or without it no plan was found that is ready by doors */
export function paidHoursNeeded(
  { instance }: BuiltInstance,
  { turn }: BuiltPart,
  workMost: number,
  seed: number,
): PaidHoursNeeded | null {
  if (!isCapped(instance)) return null
  const dues = instance.turns.map(({ dueTick }) => dueTick)
  const laneTicksMost = instance.lanes.length * Math.max(1, instance.horizonTick)
  const uncapped = {
    ...instance,
    budgets: (instance.budgets ?? []).map((budget) => ({ ...budget, laneTicksMost })),
  }
  const { schedule } = solve(uncapped, { workMost, seed, acceptableReadyTicks: dues })
  if (schedule === null || schedule.readyTicks[turn]! > dues[turn]!) return null
  const paidTicks = schedule.activities.reduce(
    (sum, { lanes, startTick, endTick }) =>
      sum + lanes.filter((lane) => isPaid(instance, lane)).length * (endTick - startTick),
    0,
  )
  return { paidSecondsNeeded: paidTicks * TICK_SECONDS }
}

/** Somebody is paid, and not without end. */
export const isCapped = (instance: TurnInstance): boolean =>
  instance.lanes.some((_, lane) => isPaid(instance, lane))

const isPaid = ({ lanes }: TurnInstance, lane: number): boolean => lanes[lane]!.budget !== undefined
