/**
 * The best plan that so many tries find where lanes count: first by all priority rules, the most promising of these plans
 * improved back and forth; then lists drawn by chance, and variations and crossings of the best plans, until one is good
 * enough or the effort is used up. More effort begins with the same steps as less.
 */

import type { PreparedInstance } from '../prepared-instance.ts'
import { seededRandom } from '../seeded-random.ts'
import { type Draft, emptyDraft } from './draft.ts'
import { Elite } from './elite.ts'
import { type FoundPlan, foundPlan, isBetter } from './found-plan.ts'
import { type Effort, Improvement, workLeft } from './improvement.ts'
import { type ModeRule, modeRules, wishNumber } from './mode-choice.ts'
import { listByChance, listByPriority, priorities, priorityRules } from './priority-rules.ts'
import { ScheduleGenerator } from './schedule-generation.ts'
import { Variation } from './variation.ts'

/** Plans by rule that are improved back and forth before chance takes over. */
const IMPROVED_MOST = 4
/** With more that waits for nothing, asking again and again what can begin soonest takes longer than all the rest. */
const SOONEST_FIRST_MOST = 300
/** Back and forth costs two schedules more: only for what comes so near the best, by the weighted ready ticks. */
const NEAR_PERCENT = 120
/** Of all lists so many are drawn by chance, of the others so many crossed. */
const CHANCE_SHARE = 0.2
const CROSSED_SHARE = 0.3
const CHANGES_MOST = 10
/** Every so many variations somebody else does some of the work than the order of lanes would have it. */
const RANKED_EVERY = 8

interface Tried {
  readonly plan: FoundPlan
  readonly wishes: Int32Array
}

/** @returns null when none was found */
export function bestPlanWithLanes(
  problem: PreparedInstance,
  effort: Effort,
  seed: number,
  isGoodEnough: (plan: FoundPlan) => boolean,
): FoundPlan | null {
  const generator = new ScheduleGenerator(problem)
  if (!generator.hasPinned) return null
  const search = new Search(generator, effort, seed, isGoodEnough)
  search.tryRules()
  const canVary = problem.pinned.length < problem.activityCount
  while (canVary && !search.isOver()) search.tryNext()
  return search.best()
}

class Search {
  private readonly problem: PreparedInstance
  private readonly generator: ScheduleGenerator
  private readonly effort: Effort
  private readonly isGoodEnough: (plan: FoundPlan) => boolean
  private readonly random: () => number
  private readonly elite = new Elite()
  private readonly improvement: Improvement
  private readonly variation: Variation
  private readonly priorityValues: readonly Float64Array[]
  private readonly isNarrow: boolean
  private variations = 0

  constructor(
    generator: ScheduleGenerator,
    effort: Effort,
    seed: number,
    isGoodEnough: (plan: FoundPlan) => boolean,
  ) {
    const { problem } = generator
    this.problem = problem
    this.isNarrow = countWithoutPredecessors(problem) <= SOONEST_FIRST_MOST
    this.generator = generator
    this.effort = effort
    this.isGoodEnough = isGoodEnough
    this.random = seededRandom(seed)
    this.improvement = new Improvement(generator, effort, isGoodEnough)
    this.variation = new Variation(problem, this.random)
    this.priorityValues = priorityRules
      .filter((rule) => rule !== 'earliest-due-turn' || problem.turnCount > 1)
      .map((rule) => priorities(problem, rule))
  }

  best(): FoundPlan | null {
    return this.elite.best()
  }

  isOver(): boolean {
    const best = this.best()
    return workLeft(this.effort) < 1 || (best !== null && this.isGoodEnough(best))
  }

  tryRules(): void {
    const found: Tried[] = []
    const add = (plan: FoundPlan | null, wishes: Int32Array): void => {
      if (plan) found.push({ plan, wishes })
    }
    // First of all what comes first, as soon as it can be: nobody shall find that plain order would have been better.
    const soonest = this.allBy('earliest-end')
    if (!this.isOver())
      add(this.tryList(listByPriority(this.problem, this.priorityValues[0]!), soonest), soonest)
    for (const values of this.priorityValues) {
      for (const rule of ['hurried', 'balanced'] as const) {
        if (this.isOver()) return
        const wishes = this.allBy(rule)
        const plan = this.isNarrow
          ? this.tried((draft) => this.generator.writeSoonestFirst(values, wishes, draft))
          : this.tryList(listByPriority(this.problem, values), wishes)
        add(plan, wishes)
      }
    }
    found.sort((a, b) => (isBetter(a.plan, b.plan) ? -1 : isBetter(b.plan, a.plan) ? 1 : 0))
    for (const { plan, wishes } of found.slice(0, IMPROVED_MOST)) this.improveAndKeep(plan, wishes)
  }

  tryNext(): void {
    const { random, elite } = this
    const base = random() < CHANCE_SHARE ? null : elite.at(random() ** 2)
    if (base) this.tryVariation(base)
    else this.trySample()
  }

  private trySample(): void {
    const values = this.priorityValues[Math.floor(this.random() * this.priorityValues.length)]!
    const rule = modeRules[Math.floor(this.random() * modeRules.length)]!
    this.tryAndImprove(listByChance(this.problem, values, this.random), this.allBy(rule))
  }

  private tryVariation(base: FoundPlan): void {
    const { random, variation } = this
    const other = random() < CROSSED_SHARE ? this.elite.at(random()) : null
    if (other && other !== base) variation.cross(base, other)
    else variation.copy(base)
    const changes = 1 + Math.floor(random() * CHANGES_MOST)
    for (let change = 0; change < changes; change++) {
      if (random() < 0.5) variation.moveOne()
      else variation.changeMode()
    }
    this.variations += 1
    const isRanked = this.problem.laneCount > 1 && this.variations % RANKED_EVERY === 0
    this.tryAndImprove(variation.list, variation.wishes, isRanked ? variation.rankedLanes() : null)
  }

  private tryAndImprove(
    list: Int32Array,
    wishes: Int32Array,
    rankedLanes: readonly (Int32Array | null)[] | null = null,
  ): void {
    const plan = this.tried((draft) => this.generator.writeForward(list, wishes, draft, rankedLanes))
    const best = this.best()
    if (!plan || !best || this.isOver()) return
    if (plan.weightedReadyTicks * 100 > best.weightedReadyTicks * NEAR_PERCENT) return
    for (let activity = 0; activity < wishes.length; activity++) {
      if (wishes[activity]! >= 0 && this.random() < 0.5) wishes[activity] = wishNumber('balanced')
    }
    this.improveAndKeep(plan, wishes)
  }

  private improveAndKeep(plan: FoundPlan, wishes: Int32Array): void {
    if (!this.isOver()) this.elite.keep(this.improvement.improved(plan, wishes))
  }

  private tryList(list: Int32Array, wishes: Int32Array): FoundPlan | null {
    return this.tried((draft) => this.generator.writeForward(list, wishes, draft))
  }

  private tried(write: (draft: Draft) => boolean): FoundPlan | null {
    this.effort.workDone += 1
    const draft = emptyDraft(this.problem)
    if (!write(draft)) return null
    const plan = foundPlan(this.problem, draft)
    this.elite.keep(plan)
    return plan
  }

  private allBy(rule: ModeRule): Int32Array {
    return new Int32Array(this.problem.activityCount).fill(wishNumber(rule))
  }
}

function countWithoutPredecessors({ activityCount, predecessorFirst }: PreparedInstance): number {
  let count = 0
  for (let activity = 0; activity < activityCount; activity++)
    if (predecessorFirst[activity] === predecessorFirst[activity + 1]) count += 1
  return count
}
