/**
 * The best plan that so many tries find: first the lists of all priority rules, the most promising of them improved
 * back and forth; then lists drawn by chance and variations of the best plans, until a plan is proven best, good enough
 * for the caller, or the effort is used up. Same instance, options and version: same answer.
 */
import { type FoundPlan, foundPlan, isBetter, scheduleFromDraft } from './found-plan.ts'
import { byTickThenRank, type Effort, improved, workLeft } from './improvement.ts'
import type { Schedule, TurnInstance } from './instance.ts'
import { instanceProblems } from './instance-problems.ts'
import { lowerBounds } from './lower-bound.ts'
import { type PlainInstance, plainInstance } from './plain/plain-instance.ts'
import { plainPlan } from './plain/plain-plan.ts'
import { type PreparedInstance, prepared } from './prepared-instance.ts'
import { listByChance, listByPriority, priorities, priorityRules } from './priority-rules.ts'
import { type ModeRule, type ModeWishes, modeRules, ScheduleGenerator } from './schedule-generation.ts'
import { seededRandom } from './seeded-random.ts'

/** Part of the key of cached plans: moved on whenever the same input may give another answer. */
export const SOLVER_VERSION = 'turn-3'

export interface SolveOptions {
  /**
   * Schedules to generate at most, forward and backward ones alike. With the same seed more never finds a
   * worse plan where there are lanes; without any, the search is laid out for so many, and now and then does.
   */
  readonly workMost: number
  readonly seed: number
  /** By turn: the first plan in which every turn is ready by then is taken. Left out: nothing short of proof is. */
  readonly acceptableReadyTicks?: readonly number[]
  /** Asked after each schedule whether to go on; left out: until the work is done. Whoever looks at a clock does so here. */
  readonly goOn?: () => boolean
}

export interface SolveResult {
  /** null when none was found; it may be late, but never ends after the horizon. */
  readonly schedule: Schedule | null
  readonly workDone: number
  /** By turn: no plan is ready earlier; null: no plan is possible. */
  readonly boundTicks: readonly (number | null)[]
  /**
   * `bound`: every turn is ready at its bound; or there is no plan, or a late one, and the bounds show that there is
   * none in which every turn is ready by due. `none-found`: nothing is proven.
   */
  readonly proof: 'bound' | 'none-found'
  /** It stopped because the effort was used up. */
  readonly exhausted: boolean
}

/** Plans that variations start from. */
const ELITE_MOST = 4
/** Rule lists that are improved back and forth before chance takes over. */
const IMPROVED_MOST = 4

/** @throws when the instance is malformed, with the problems in the message */
export function solve(instance: TurnInstance, options: SolveOptions): SolveResult {
  const problems = instanceProblems(instance)
  if (problems.length > 0) throw new Error(`malformed instance: ${problems.join('; ')}`)
  const problem = prepared(instance)
  const bounds = lowerBounds(problem)
  const boundTicks = bounds.map((bound) => bound.readyTick)
  if (boundTicks.includes(null)) {
    return { schedule: null, workDone: 0, boundTicks, proof: 'bound', exhausted: false }
  }
  const plain = plainInstance(instance)
  if (plain) return plainResult(instance, plain, boundTicks[0]!, options)
  const isAtBounds = (plan: FoundPlan): boolean =>
    plan.readyTicks.every((tick, turn) => tick === boundTicks[turn])
  const isAcceptable = (plan: FoundPlan): boolean =>
    options.acceptableReadyTicks !== undefined &&
    plan.readyTicks.every(
      (tick, turn) => tick <= (options.acceptableReadyTicks?.[turn] ?? Number.NEGATIVE_INFINITY),
    )
  const isGoodEnough = (plan: FoundPlan): boolean => isAtBounds(plan) || isAcceptable(plan)

  const effort: Effort = { workMost: options.workMost, workDone: 0, goOn: options.goOn }
  const best = bestPlan(problem, effort, options.seed, isGoodEnough)
  const boundsExcludeDue = boundTicks.some((tick, turn) => tick !== null && tick > problem.dueTicks[turn]!)
  const isLate = best === null || best.weightedLateTicks > 0
  const proven = (best !== null && isAtBounds(best)) || (isLate && boundsExcludeDue)
  return {
    schedule: best && scheduleFromDraft(problem, best),
    workDone: effort.workDone,
    boundTicks,
    proof: proven ? 'bound' : 'none-found',
    exhausted: best ? !isGoodEnough(best) : workLeft(effort) < 1,
  }
}

/** Nothing but resources, consumables and precedence decides. */
function plainResult(
  { turns, activities }: TurnInstance,
  plain: PlainInstance,
  boundTick: number,
  { workMost, seed, acceptableReadyTicks, goOn = () => true }: SolveOptions,
): SolveResult {
  const { releaseTick, dueTick } = turns[0]!
  const readyTickWanted = Math.max(boundTick, acceptableReadyTicks?.[0] ?? boundTick)
  const ticksWanted = readyTickWanted - releaseTick
  const { plan, workDone } = plainPlan(plain, { workMost, seed, ticksWanted, goOn })
  const readyTick = plan && releaseTick + plan.ticks
  const isLate = readyTick === null || readyTick > dueTick
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
    boundTicks: [boundTick],
    proof: readyTick === boundTick || (isLate && boundTick > dueTick) ? 'bound' : 'none-found',
    exhausted: readyTick === null || readyTick > readyTickWanted,
  }
}

function bestPlan(
  problem: PreparedInstance,
  effort: Effort,
  seed: number,
  isGoodEnough: (plan: FoundPlan) => boolean,
): FoundPlan | null {
  const search = new Search(problem, effort, seed, isGoodEnough)
  if (!search.canPlan) return null
  search.tryRules()
  while (!search.isOver() && search.movable.length > 0) {
    if (search.elite.length === 0 || search.random() < 0.2) search.trySample()
    else search.tryVariation()
  }
  return search.best()
}

class Search {
  readonly random: () => number
  /** Best first; no two are equal in all that counts. */
  readonly elite: FoundPlan[] = []
  /** All that is not pinned. */
  readonly movable: readonly number[]
  readonly canPlan: boolean
  private readonly problem: PreparedInstance
  private readonly generator: ScheduleGenerator
  private readonly effort: Effort
  private readonly isGoodEnough: (plan: FoundPlan) => boolean
  private readonly priorityValues: Float64Array[]

  constructor(
    problem: PreparedInstance,
    effort: Effort,
    seed: number,
    isGoodEnough: (plan: FoundPlan) => boolean,
  ) {
    this.problem = problem
    this.generator = new ScheduleGenerator(problem)
    this.canPlan = this.generator.hasPinned
    this.movable = [...problem.isPinned.keys()].filter((activity) => problem.isPinned[activity] === 0)
    this.effort = effort
    this.isGoodEnough = isGoodEnough
    this.random = seededRandom(seed)
    this.priorityValues = priorityRules
      .filter((rule) => rule !== 'earliest-due-turn' || problem.turnCount > 1)
      .map((rule) => priorities(problem, rule))
  }

  best(): FoundPlan | null {
    return this.elite[0] ?? null
  }

  isOver(): boolean {
    const best = this.best()
    return workLeft(this.effort) < 1 || (best !== null && this.isGoodEnough(best))
  }

  tryRules(): void {
    const found: { plan: FoundPlan; wishes: ModeWishes }[] = []
    // First of all what comes first, as soon as it can be: nobody shall find that plain order would have been better.
    const rules: readonly ModeRule[] = ['earliest-end', 'balanced', 'fewest-person-ticks']
    for (const values of this.priorityValues) {
      const list = listByPriority(this.problem, values)
      for (const rule of rules) {
        if (this.isOver()) return
        const wishes = Array.from(values, () => rule)
        const plan = this.tryList(list, wishes)
        if (plan) found.push({ plan, wishes })
      }
    }
    found.sort((a, b) => (isBetter(a.plan, b.plan) ? -1 : isBetter(b.plan, a.plan) ? 1 : 0))
    for (const { plan, wishes } of found.slice(0, IMPROVED_MOST)) this.improveAndKeep(plan, wishes)
  }

  trySample(): void {
    const values = this.priorityValues[Math.floor(this.random() * this.priorityValues.length)]!
    const rule = modeRules[Math.floor(this.random() * modeRules.length)]!
    const list = listByChance(this.problem, values, this.random)
    this.tryAndImprove(
      list,
      Array.from(values, () => rule),
    )
  }

  /** One of the best plans, with some work moved in the order and some modes chosen anew. */
  tryVariation(): void {
    const { problem, random } = this
    const base = this.elite[Math.floor(random() ** 2 * this.elite.length)]!
    const list = byTickThenRank(base.draft.starts, problem.rank).filter(
      (activity) => problem.isPinned[activity] === 0,
    )
    const wishes: (ModeRule | number)[] = Array.from(base.draft.modes)
    const changes = 1 + Math.floor(random() * 3)
    for (let change = 0; change < changes; change++) {
      if (random() < 0.5) moveOne(problem, list, random)
      else {
        const activity = this.movable[Math.floor(random() * this.movable.length)]!
        wishes[activity] = anotherWish(problem, activity, random)
      }
    }
    this.tryAndImprove(list, wishes)
  }

  private tryAndImprove(list: ArrayLike<number>, wishes: ModeWishes): void {
    const plan = this.tryList(list, wishes)
    if (!plan || this.isOver()) return
    // Back and forth costs two schedules more: only for what comes near the best.
    const best = this.best()
    if (best !== null && plan.weightedReadyTicks > best.weightedReadyTicks * 1.1) return
    const freely = wishes.map((wish) => (typeof wish === 'number' && this.random() < 0.5 ? 'balanced' : wish))
    this.improveAndKeep(plan, freely)
  }

  private improveAndKeep(plan: FoundPlan, wishes: ModeWishes): void {
    if (!this.isOver()) this.keep(improved(this.generator, plan, wishes, this.effort, this.isGoodEnough))
  }

  private tryList(list: ArrayLike<number>, wishes: ModeWishes): FoundPlan | null {
    this.effort.workDone += 1
    const draft = this.generator.forward(list, wishes)
    if (!draft) return null
    const plan = foundPlan(this.problem, draft)
    this.keep(plan)
    return plan
  }

  private keep(plan: FoundPlan): void {
    let at = 0
    while (at < this.elite.length && isBetter(this.elite[at]!, plan)) at += 1
    const equal = this.elite[at]
    // Of equals the newer one stays: the search drifts over a plateau instead of standing still.
    if (equal && !isBetter(plan, equal)) this.elite[at] = plan
    else this.elite.splice(at, 0, plan)
    if (this.elite.length > ELITE_MOST) this.elite.pop()
  }
}

/** Moves one activity to another place in the list, not past what it waits for nor past what waits for it. */
function moveOne(problem: PreparedInstance, list: number[], random: () => number): void {
  const from = Math.floor(random() * list.length)
  const activity = list[from]!
  let low = from
  while (low > 0 && !isAfter(problem, activity, list[low - 1]!)) low -= 1
  let high = from
  while (high + 1 < list.length && !isAfter(problem, list[high + 1]!, activity)) high += 1
  const to = low + Math.floor(random() * (high - low + 1))
  list.splice(from, 1)
  list.splice(to, 0, activity)
}

function isAfter(problem: PreparedInstance, activity: number, predecessor: number): boolean {
  for (let at = problem.predecessorFirst[activity]!; at < problem.predecessorFirst[activity + 1]!; at++) {
    if (problem.predecessors[at] === predecessor) return true
  }
  return false
}

function anotherWish(problem: PreparedInstance, activity: number, random: () => number): ModeRule | number {
  const first = problem.modeFirst[activity]!
  const count = problem.modeFirst[activity + 1]! - first
  const choice = Math.floor(random() * (count + modeRules.length))
  return choice < count ? first + choice : modeRules[choice - count]!
}
