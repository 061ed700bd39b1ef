/** What is known, while a plan is looked for, of how early each turn can be ready at best. */
import { strongerBoundTicks } from './bounds/stronger-bound.ts'
import type { PreparedInstance } from './prepared-instance.ts'

export class KnownBounds {
  /** By turn. */
  readonly ticks: number[]
  private readonly problem: PreparedInstance

  /** @param ticks  by turn: the bounds known without looking for contradictions */
  constructor(problem: PreparedInstance, ticks: readonly number[]) {
    this.problem = problem
    this.ticks = [...ticks]
  }

  areReached(readyTicks: readonly number[]): boolean {
    return readyTicks.every((tick, turn) => tick === this.ticks[turn])
  }

  /** Whether no plan has every turn ready by its due. */
  excludeDue(): boolean {
    return this.ticks.some((tick, turn) => tick > this.problem.dueTicks[turn]!)
  }

  /** Looks closely whether a turn can be ready sooner than in this plan; null: than just after it is due. */
  lookAt(readyTicks: readonly number[] | null): void {
    const until = readyTicks ?? this.problem.dueTicks.map((tick) => tick + 1)
    for (const [turn, tick] of this.ticks.entries())
      this.ticks[turn] = strongerBoundTicks(this.problem, turn, tick, Math.max(tick, until[turn]!))
  }
}
