/** What may be used up of every budget, laid out for the inner loops. Empty arrays where there are no budgets. */
import type { Activity, HandsNeed, Mode, TurnInstance } from './instance.ts'

export interface PreparedBudgets {
  readonly budgetCount: number
  /** By lane; -1: its time costs nothing. */
  readonly laneBudget: Int32Array
  /**
   * `leastPaidTicks[activity * budgetCount + budget]`: so much of the budget the activity takes however it is done,
   * because there are not hands enough without it.
   */
  readonly leastPaidTicks: Float64Array
  /** By budget: what is left beyond the least of all activities; below zero: it cannot do. */
  readonly spareBudgetTicks: Float64Array
}

export function preparedBudgets(instance: TurnInstance): PreparedBudgets {
  const { activities, lanes } = instance
  const budgets = instance.budgets ?? []
  const leastPaidTicks = new Float64Array(activities.length * budgets.length)
  const spareBudgetTicks = new Float64Array(budgets.map((budget) => budget.laneTicksMost))
  for (let budget = 0; budget < budgets.length; budget++) {
    const masksElsewhere = lanes.filter((lane) => lane.budget !== budget).map((lane) => lane.skillMask)
    for (const [index, activity] of activities.entries()) {
      const least = leastTicksFrom(masksElsewhere, activity)
      leastPaidTicks[index * budgets.length + budget] = least
      spareBudgetTicks[budget]! -= least
    }
  }
  return {
    budgetCount: budgets.length,
    laneBudget: new Int32Array(lanes.map((lane) => lane.budget ?? -1)),
    leastPaidTicks,
    spareBudgetTicks,
  }
}

function leastTicksFrom(masksElsewhere: readonly number[], activity: Activity): number {
  let least = Number.POSITIVE_INFINITY
  for (const mode of activity.modes) {
    least = Math.min(least, mode.durationTicks * lanesMissing(masksElsewhere, mode))
  }
  return least
}

/** Hands of the mode that the lanes elsewhere cannot be, even if all of them were free. */
function lanesMissing(masksElsewhere: readonly number[], mode: Mode): number {
  let most = 0
  for (const skillMask of [0, ...mode.hands.map((need) => need.skillMask)]) {
    const has = (mask: number): boolean => (mask & skillMask) === skillMask
    const asked = mode.hands.reduce((sum, need: HandsNeed) => sum + (has(need.skillMask) ? need.count : 0), 0)
    most = Math.max(most, asked - masksElsewhere.filter(has).length)
  }
  return most
}
