/**
 * The plan people carry: among plans that are ready soon enough, the one that is calmest for those who do the work. First
 * the hands are shared out anew with all times kept; then other schedules are tried that keep groups and pairs together.
 */
import { type Schedule, TICK_SECONDS, type TurnInstance } from './instance.ts'
import {
  type CarriedWorth,
  carriedWorth,
  groupsOf,
  type Smoothness,
  worthDifference,
} from './plan-smoothness.ts'
import { lanesExchanged } from './plan-smoothness-exchange.ts'
import { lanesChosenAfresh } from './plan-smoothness-greedy.ts'
import { rosterOf, withLanes } from './plan-smoothness-roster.ts'
import { variedWish } from './plan-smoothness-variation.ts'
import {
  type CarriedGround,
  carriedGround,
  firstWishes,
  scheduleAsWished,
  wishOf,
} from './plan-smoothness-wish.ts'
import { seededRandom } from './seeded-random.ts'

/** What a calmer plan may cost: so much of the time from release to ready, or so long. Common practice, no source. */
const LATER_MOST_PERCENT = 3
const LATER_MOST_SECONDS = 120

export interface CarriedPlanOptions {
  /** Schedules to generate at most; 0: only the hands are shared out anew. More never finds a worse plan. */
  readonly workMost: number
  readonly seed: number
  /** By turn: not ready later than this; where the schedule given is later, not later than that. */
  readonly readyTicksMost: readonly number[]
}

export interface CarriedPlan {
  readonly schedule: Schedule
  readonly smoothness: Smoothness
  readonly workDone: number
}

interface Candidate {
  readonly schedule: Schedule
  readonly worth: CarriedWorth
}

/**
 * The latest that a plan for people may be ready when another is ready at `readyTick`. Whether that is still in time is
 * for the caller to say.
 */
export const readyTicksMostFor = (readyTick: number, releaseTick: number): number =>
  readyTick +
  Math.max(
    Math.floor(LATER_MOST_SECONDS / TICK_SECONDS),
    Math.floor(((readyTick - releaseTick) * LATER_MOST_PERCENT) / 100),
  )

/**
 * Calmest is, in this order: fewest stints above five a person; fewest changes of group; fewest partings; soonest ready,
 * by the weights of the turns; fewest person-ticks.
 * @param instance  without problems (`instanceProblems`)
 * @param schedule  without faults (`scheduleFaults`)
 * @returns never worse than the schedule given in that order of things, and without faults; same input, same answer
 */
export function carriedPlan(
  instance: TurnInstance,
  schedule: Schedule,
  options: CarriedPlanOptions,
): CarriedPlan {
  const groups = groupsOf(instance)
  const ground = carriedGround(instance, groups, schedule)
  const readyTicksMost = schedule.readyTicks.map((tick, turn) =>
    Math.max(tick, options.readyTicksMost[turn] ?? tick),
  )
  const random = seededRandom(options.seed)
  const given = candidate(ground, schedule)
  let best = calmer(given, calmest(ground, quickly(ground, given)))
  const first = firstWishes(ground, schedule)
  let wish = wishOf(ground, schedule)
  let current = best
  const workMost = ground.members.size === 0 ? 0 : options.workMost
  for (let workDone = 0; workDone < workMost; workDone++) {
    const tried = first[workDone] ?? variedWish(ground, wish, current.schedule, random)
    const found = scheduleAsWished(ground, tried)
    if (!found || found.readyTicks.some((tick, turn) => tick > readyTicksMost[turn]!)) continue
    const next = quickly(ground, candidate(ground, found))
    // Of equals the newer one goes on: the search drifts over a plateau instead of standing still.
    if (worthDifference(next.worth, current.worth) <= 0) {
      wish = tried
      current = next
    }
    if (calmer(best, next) === next) best = calmer(best, calmest(ground, next))
  }
  const { changes, stintsMost, partings } = best.worth
  return { schedule: best.schedule, smoothness: { changes, stintsMost, partings }, workDone: workMost }
}

const candidate = ({ instance, groups }: CarriedGround, schedule: Schedule): Candidate => ({
  schedule,
  worth: carriedWorth(instance, groups, schedule),
})

const calmer = (known: Candidate, other: Candidate): Candidate =>
  worthDifference(other.worth, known.worth) < 0 ? other : known

/** Hands chosen afresh; where that does not come out, or comes out worse, as they are. */
function quickly(ground: CarriedGround, known: Candidate): Candidate {
  const roster = rosterOf(ground.instance, ground.groups, known.schedule)
  const lanes = lanesChosenAfresh(roster)
  if (lanes === null) return known
  const afresh = candidate(ground, withLanes(known.schedule, roster, lanes))
  return calmer(known, afresh)
}

/** As far as exchanges lead. */
function calmest(ground: CarriedGround, { schedule }: Candidate): Candidate {
  const roster = rosterOf(ground.instance, ground.groups, schedule)
  const lanes = roster.jobs.map(({ activity }) => schedule.activities[activity]!.lanes)
  return candidate(ground, withLanes(schedule, roster, lanesExchanged(roster, lanes)))
}
