/**
 * Orders in which to place activities. A rule gives each activity a number, the lower the sooner; a list takes, of the
 * activities whose predecessors are all in it, the one with the lowest number, ties to the lowest index.
 */
import { FAR_TICK } from '../far-tick.ts'
import type { PreparedInstance } from '../prepared-instance.ts'

export type PriorityRule =
  | 'first-come'
  | 'latest-start'
  | 'latest-finish'
  | 'most-successors'
  | 'greatest-rank-positional-weight'
  | 'longest-work'
  | 'most-hands'
  | 'earliest-due-turn'
  | 'last-come'

/** In the order in which they are tried; `earliest-due-turn` makes a difference only with several turns. */
export const priorityRules: readonly PriorityRule[] = [
  'first-come',
  'latest-start',
  'earliest-due-turn',
  'greatest-rank-positional-weight',
  'latest-finish',
  'most-successors',
  'longest-work',
  'most-hands',
  'last-come',
]

/** Lower is sooner. By index of activity; with the shortest mode of each. */
export function priorities(problem: PreparedInstance, rule: PriorityRule): Float64Array {
  const { activityCount, shortestTicks } = problem
  const values = new Float64Array(activityCount)
  if (rule === 'first-come') return values.map((_, activity) => activity)
  if (rule === 'last-come') return values.map((_, activity) => -activity)
  if (rule === 'latest-start') return latestFinishes(problem).map((tick, at) => tick - shortestTicks[at]!)
  if (rule === 'latest-finish') return latestFinishes(problem)
  if (rule === 'most-successors') return values.map((_, activity) => -successorCount(problem, activity))
  if (rule === 'greatest-rank-positional-weight') {
    return values.map((_, activity) => -rankPositionalWeight(problem, activity))
  }
  if (rule === 'longest-work') {
    return values.map(
      (_, activity) => -overModes(problem, activity, problem.modePersonTicks, Math.min, FAR_TICK),
    )
  }
  if (rule === 'most-hands') {
    return values.map((_, activity) => -overModes(problem, activity, problem.modeHands, Math.max, 0))
  }
  // Turns apart by more than any latest start differs within one.
  const starts = latestFinishes(problem).map((tick, at) => tick - shortestTicks[at]!)
  const ranks = dueRanks(problem)
  const span = starts.reduce((most, tick) => Math.max(most, Math.abs(tick)), 0) * 2 + 1
  return starts.map((tick, activity) => ranks[activity]! * span + tick)
}

/** The activities by priority, each behind its predecessors. */
export function listByPriority(problem: PreparedInstance, values: ArrayLike<number>): Int32Array {
  return listChoosing(problem, (eligible) => {
    let best = 0
    for (let at = 1; at < eligible.length; at++) {
      const more = values[eligible[at]!]! - values[eligible[best]!]!
      if (more < 0 || (more === 0 && eligible[at]! < eligible[best]!)) best = at
    }
    return best
  })
}

/**
 * A list drawn at random, where a lower number makes an early place likelier: chances go with the square of the regret
 * (how much worse the worst eligible activity is, plus one). After Drexl 1991, regret-based biased random sampling.
 */
export function listByChance(
  problem: PreparedInstance,
  values: ArrayLike<number>,
  random: () => number,
): Int32Array {
  return listChoosing(problem, (eligible) => {
    let worst = Number.NEGATIVE_INFINITY
    let best = Number.POSITIVE_INFINITY
    for (const activity of eligible) {
      worst = Math.max(worst, values[activity]!)
      best = Math.min(best, values[activity]!)
    }
    // In tenths of the spread, so that the same bias serves ticks, hands and counts.
    const unit = Math.max((worst - best) / 10, 1e-9)
    let sum = 0
    for (const activity of eligible) sum += ((worst - values[activity]!) / unit + 1) ** 2
    let left = random() * sum
    for (let at = 0; at < eligible.length - 1; at++) {
      left -= ((worst - values[eligible[at]!]!) / unit + 1) ** 2
      if (left < 0) return at
    }
    return eligible.length - 1
  })
}

function listChoosing(
  problem: PreparedInstance,
  choose: (eligible: readonly number[]) => number,
): Int32Array {
  const { activityCount, predecessorFirst, successorFirst, successors } = problem
  const list = new Int32Array(activityCount)
  const waitingFor = new Int32Array(activityCount)
  const eligible: number[] = []
  for (let activity = 0; activity < activityCount; activity++) {
    waitingFor[activity] = predecessorFirst[activity + 1]! - predecessorFirst[activity]!
    if (waitingFor[activity] === 0) eligible.push(activity)
  }
  for (let position = 0; position < activityCount; position++) {
    const at = choose(eligible)
    const activity = eligible[at]!
    eligible[at] = eligible.at(-1)!
    eligible.pop()
    list[position] = activity
    for (let next = successorFirst[activity]!; next < successorFirst[activity + 1]!; next++) {
      const successor = successors[next]!
      waitingFor[successor]! -= 1
      if (waitingFor[successor] === 0) eligible.push(successor)
    }
  }
  return list
}

/** By when each must end for every turn to be ready by its due tick, with hands and tools without limit. */
function latestFinishes(problem: PreparedInstance): Float64Array {
  const { order, successorFirst, successors, turnOf, dueTicks, shortestTicks } = problem
  const finishes = new Float64Array(problem.activityCount)
  for (let position = order.length - 1; position >= 0; position--) {
    const activity = order[position]!
    let latest = dueTicks[turnOf[activity]!]!
    for (let at = successorFirst[activity]!; at < successorFirst[activity + 1]!; at++) {
      const successor = successors[at]!
      latest = Math.min(latest, finishes[successor]! - shortestTicks[successor]!)
    }
    finishes[activity] = latest
  }
  return finishes
}

/** Of all turns that wait for the activity, or have it, the one that is due first: its place in the order of due ticks. */
function dueRanks(problem: PreparedInstance): Int32Array {
  const { order, successorFirst, successors, turnOf, dueTicks } = problem
  const turns = dueTicks.map((_, turn) => turn).sort((a, b) => dueTicks[a]! - dueTicks[b]! || a - b)
  const rankOfTurn = dueTicks.map((_, turn) => turns.indexOf(turn))
  const ranks = new Int32Array(problem.activityCount)
  for (let position = order.length - 1; position >= 0; position--) {
    const activity = order[position]!
    let rank = rankOfTurn[turnOf[activity]!]!
    for (let at = successorFirst[activity]!; at < successorFirst[activity + 1]!; at++) {
      rank = Math.min(rank, ranks[successors[at]!]!)
    }
    ranks[activity] = rank
  }
  return ranks
}

/** All that must wait for it, directly or not. */
function successorCount(problem: PreparedInstance, activity: number): number {
  const { successorFirst, successors } = problem
  const seen = new Uint8Array(problem.activityCount)
  const open = [activity]
  let count = 0
  for (let current = open.pop(); current !== undefined; current = open.pop()) {
    for (let at = successorFirst[current]!; at < successorFirst[current + 1]!; at++) {
      const successor = successors[at]!
      if (seen[successor] === 1) continue
      seen[successor] = 1
      count += 1
      open.push(successor)
    }
  }
  return count
}

/** Its length and that of its direct successors (Alvarez-Valdés and Tamarit 1989), shortest modes. */
function rankPositionalWeight(problem: PreparedInstance, activity: number): number {
  const { successorFirst, successors, shortestTicks } = problem
  let weight = shortestTicks[activity]!
  for (let at = successorFirst[activity]!; at < successorFirst[activity + 1]!; at++) {
    weight += shortestTicks[successors[at]!]!
  }
  return weight
}

function overModes(
  problem: PreparedInstance,
  activity: number,
  figures: Int32Array,
  choose: (a: number, b: number) => number,
  start: number,
): number {
  let value = start
  for (let mode = problem.modeFirst[activity]!; mode < problem.modeFirst[activity + 1]!; mode++) {
    value = choose(value, figures[mode]!)
  }
  return value
}
