/**
 * The plan people carry: among plans that are ready soon enough, the one that is calmest for those who do the work. First
 * the hands are shared out anew with all times kept; then other schedules are tried, and kept where they are calmer.
 */
import { type Schedule, TICK_SECONDS, type TurnInstance } from '../instance.ts'
import { seededRandom } from '../seeded-random.ts'
import { lanesExchanged } from './exchange.ts'
import { lanesChosenAfresh } from './greedy.ts'
import { lineUpGround } from './line-up.ts'
import { rosterOf, withLanes } from './roster.ts'
import { searchRound } from './search.ts'
import { type CarriedWorth, carriedWorth, groupsOf, worthDifference } from './smoothness.ts'

/** What a calmer plan may cost: so much of the time from release to ready, or so long. Common practice, no source. */
const LATER_MOST_PERCENT = 3
const LATER_MOST_SECONDS = 120

export interface CarriedPlanOptions {
  /** Rounds of looking for other schedules; 0: only the hands are shared out anew. More never find a worse plan. */
  readonly rounds: number
  readonly seed: number
  /** By turn: not ready later than this; where the schedule given is later, not later than that. */
  readonly readyTicksMost: readonly number[]
}

export interface CarriedPlan {
  readonly schedule: Schedule
  /** Schedules generated. */
  readonly workDone: number
}

interface Ground {
  readonly instance: TurnInstance
  /** As `groupsOf` gives them. */
  readonly groups: readonly number[]
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
 * Calmest is, in this order: fewest stints above five a person; fewest changes of group; fewest changes of zone within a
 * group; fewest partings; soonest ready, by the weights of the turns; fewest person-ticks.
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
  const readyTicksMost = schedule.readyTicks.map((tick, turn) =>
    Math.max(tick, options.readyTicksMost[turn] ?? tick),
  )
  const random = seededRandom(options.seed)
  const ground = { instance, groups }
  let best = withHandsShared(ground, candidate(ground, schedule))
  let workDone = 0
  for (let round = 0; round < options.rounds; round++) {
    workDone += searchRound(lineUpGround(instance, groups, best.schedule), best.schedule, {
      readyTicksMost,
      random,
      offer: (found) => {
        best = calmer(best, candidate(ground, found))
      },
    })
    best = withHandsShared(ground, best)
  }
  return { schedule: best.schedule, workDone }
}

/** Whether people follow the one schedule more easily than the other, in the order of things above. */
export function isCalmer(instance: TurnInstance, one: Schedule, other: Schedule): boolean {
  const groups = groupsOf(instance)
  const worthOf = (schedule: Schedule) => carriedWorth(instance, groups, schedule)
  return worthDifference(worthOf(one), worthOf(other)) < 0
}

const candidate = ({ instance, groups }: Ground, schedule: Schedule): Candidate => ({
  schedule,
  worth: carriedWorth(instance, groups, schedule),
})

const calmer = (known: Candidate, other: Candidate): Candidate =>
  worthDifference(other.worth, known.worth) < 0 ? other : known

/** The same at the same times, by whom it is easiest. */
const withHandsShared = (ground: Ground, known: Candidate): Candidate =>
  calmer(known, calmest(ground, quickly(ground, known)))

/** Hands chosen afresh; where that does not come out, or comes out worse, as they are. */
function quickly(ground: Ground, known: Candidate): Candidate {
  const roster = rosterOf(ground.instance, ground.groups, known.schedule)
  const lanes = lanesChosenAfresh(roster)
  if (lanes === null) return known
  const afresh = candidate(ground, withLanes(known.schedule, roster, lanes))
  return calmer(known, afresh)
}

/** As far as exchanges lead. */
function calmest(ground: Ground, { schedule }: Candidate): Candidate {
  const roster = rosterOf(ground.instance, ground.groups, schedule)
  const lanes = roster.jobs.map(({ activity }) => schedule.activities[activity]!.lanes)
  return candidate(ground, withLanes(schedule, roster, lanesExchanged(roster, lanes)))
}
