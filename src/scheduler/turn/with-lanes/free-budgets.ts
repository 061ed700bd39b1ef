/** What is left of every budget while a schedule grows. What others must have of it in any case is kept back for them. */
import type { PreparedInstance } from '../prepared-instance.ts'

export class FreeBudgets {
  private readonly problem: PreparedInstance
  private readonly spareTicks: Float64Array

  constructor(problem: PreparedInstance) {
    this.problem = problem
    this.spareTicks = problem.spareBudgetTicks.slice()
  }

  clear(): void {
    this.spareTicks.set(this.problem.spareBudgetTicks)
  }

  /** So many lanes of the budget the activity can have for so long, 1 tick or more; 0 or more. */
  lanesMost(budget: number, activity: number, ticks: number): number {
    const { leastPaidTicks, budgetCount } = this.problem
    const left = this.spareTicks[budget]! + leastPaidTicks[activity * budgetCount + budget]!
    return Math.max(0, Math.floor(left / ticks))
  }

  /** Whether these lanes can all be paid for the activity. */
  suffice(lanes: Int32Array, slotsFrom: number, slotsTo: number, activity: number, ticks: number): boolean {
    const { laneBudget, budgetCount } = this.problem
    if (slotsFrom === slotsTo) return true
    for (let budget = 0; budget < budgetCount; budget++) {
      let count = 0
      for (let slot = slotsFrom; slot < slotsTo; slot++) if (laneBudget[lanes[slot]!] === budget) count += 1
      if (count > this.lanesMost(budget, activity, ticks)) return false
    }
    return true
  }

  /** Takes the time of these lanes off their budgets; once for each activity. */
  hold(activity: number, lanes: Int32Array, firstSlot: number, hands: number, ticks: number): void {
    const { leastPaidTicks, budgetCount, laneBudget } = this.problem
    for (let slot = firstSlot; slot < firstSlot + hands; slot++) {
      const budget = laneBudget[lanes[slot]!]!
      if (budget >= 0) this.spareTicks[budget]! -= ticks
    }
    for (let budget = 0; budget < budgetCount; budget++) {
      this.spareTicks[budget]! += leastPaidTicks[activity * budgetCount + budget]!
    }
  }
}
