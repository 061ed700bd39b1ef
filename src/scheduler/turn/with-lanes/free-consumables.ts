/** What is left of every consumable while a schedule grows. What others must have of it in any case is kept back for them. */
import type { PreparedInstance } from '../prepared-instance.ts'

export class FreeConsumables {
  private readonly problem: PreparedInstance
  private readonly spare: Float64Array

  constructor(problem: PreparedInstance) {
    this.problem = problem
    this.spare = problem.spareConsumables.slice()
  }

  clear(): void {
    this.spare.set(this.problem.spareConsumables)
  }

  suffice(activity: number, mode: number): boolean {
    const { consumableCount, modeConsumes, leastConsumed } = this.problem
    for (let one = 0; one < consumableCount; one++) {
      const left = this.spare[one]! + leastConsumed[activity * consumableCount + one]!
      if (modeConsumes[mode * consumableCount + one]! > left) return false
    }
    return true
  }

  /** Once for each activity. */
  hold(activity: number, mode: number): void {
    const { consumableCount, modeConsumes, leastConsumed } = this.problem
    for (let one = 0; one < consumableCount; one++) {
      const least = leastConsumed[activity * consumableCount + one]!
      this.spare[one]! += least - modeConsumes[mode * consumableCount + one]!
    }
  }
}
