/** A list and wishes for modes made from plans: crossed with another one, some work moved, some modes chosen anew. */

import type { PreparedInstance } from '../prepared-instance.ts'
import type { FoundPlan } from './found-plan.ts'
import { modeRules } from './mode-choice.ts'
import { TickOrder } from './tick-order.ts'

export class Variation {
  /** Every activity once, each behind its predecessors. */
  readonly list: Int32Array
  /** See `wishNumber`. */
  readonly wishes: Int32Array
  private readonly problem: PreparedInstance
  private readonly random: () => number
  private readonly order: TickOrder
  private readonly otherOrder: TickOrder
  private readonly isListed: Uint8Array

  constructor(problem: PreparedInstance, random: () => number) {
    this.problem = problem
    this.random = random
    this.order = new TickOrder(problem)
    this.otherOrder = new TickOrder(problem)
    this.list = new Int32Array(problem.activityCount)
    this.wishes = new Int32Array(problem.activityCount)
    this.isListed = new Uint8Array(problem.activityCount)
  }

  /** The plan as it is: the order of its starts, and its modes. */
  copy({ draft }: FoundPlan): void {
    this.list.set(this.order.earliestFirst(draft.starts))
    this.wishes.set(draft.modes)
  }

  /** The plan, but for a stretch of the list in which work and modes come as in the other one. */
  cross(plan: FoundPlan, other: FoundPlan): void {
    const { list, wishes, isListed, random } = this
    const own = this.order.earliestFirst(plan.draft.starts)
    const others = this.otherOrder.earliestFirst(other.draft.starts)
    const from = this.below(list.length)
    const to = from + Math.floor(random() * (list.length - from))
    wishes.set(plan.draft.modes)
    isListed.fill(0)
    let count = 0
    for (; count < from; count++) {
      list[count] = own[count]!
      isListed[own[count]!] = 1
    }
    for (let at = 0; count < to; at++) {
      const activity = others[at]!
      if (isListed[activity] === 1) continue
      isListed[activity] = 1
      list[count++] = activity
      wishes[activity] = other.draft.modes[activity]!
    }
    for (let at = 0; count < list.length; at++) {
      if (isListed[own[at]!] === 0) list[count++] = own[at]!
    }
  }

  /** Moves one activity to another place in the list, not past what it waits for nor past what waits for it. */
  moveOne(): void {
    const { list } = this
    const from = this.below(list.length)
    const activity = list[from]!
    let low = from
    while (low > 0 && !this.isAfter(activity, list[low - 1]!)) low -= 1
    let high = from
    while (high + 1 < list.length && !this.isAfter(list[high + 1]!, activity)) high += 1
    const to = low + this.below(high - low + 1)
    if (to < from) list.copyWithin(to + 1, to, from)
    else list.copyWithin(from, from + 1, to + 1)
    list[to] = activity
  }

  /** Wishes for one of its modes, or for what a rule chooses. */
  changeMode(): void {
    const { modeFirst } = this.problem
    const activity = this.below(this.wishes.length)
    const first = modeFirst[activity]!
    const count = modeFirst[activity + 1]! - first
    const choice = this.below(count + modeRules.length)
    this.wishes[activity] = choice < count ? first + choice : count - 1 - choice
  }

  /** For about every second activity its lanes in an order drawn by chance; null: those of the rest as ever. */
  rankedLanes(): readonly (Int32Array | null)[] {
    const { activityCount, laneCount } = this.problem
    return Array.from({ length: activityCount }, () =>
      this.random() < 0.5 ? null : Int32Array.from({ length: laneCount }, () => this.below(laneCount)),
    )
  }

  private below(count: number): number {
    return Math.floor(this.random() * count)
  }

  private isAfter(activity: number, predecessor: number): boolean {
    const { predecessorFirst, predecessors } = this.problem
    for (let at = predecessorFirst[activity]!; at < predecessorFirst[activity + 1]!; at++) {
      if (predecessors[at] === predecessor) return true
    }
    return false
  }
}
