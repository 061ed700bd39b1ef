/** What is malformed in an instance, in sentences. An instance without problems may still have no plan. */
import type { Activity, Lane, Mode, TickSpan, TurnInstance } from './instance.ts'
import { pinnedProblems } from './pinned-problems.ts'

/** No tick, length or walk is larger: about 95 years. */
const TICKS_MOST = 100_000_000
/** Bits 0 to 30. */
const SKILL_MASK_MOST = 0x7fffffff

/**
 * @returns one sentence a problem, in the order turns, activities, precedence, what is pinned, resources, budgets,
 * consumables, lanes, walking; empty when the instance can be solved. Never throws.
 */
export function instanceProblems(instance: TurnInstance): string[] {
  const problems: string[] = []
  if (!isCount(instance.horizonTick))
    problems.push(`horizon: ${instance.horizonTick} is not a whole number from 0`)
  for (const [index, turn] of instance.turns.entries()) {
    const where = `turn ${index}`
    if (!isCount(turn.releaseTick))
      problems.push(`${where}: release ${turn.releaseTick} is not a whole number from 0`)
    if (!Number.isSafeInteger(turn.dueTick))
      problems.push(`${where}: due ${turn.dueTick} is not a whole number`)
    if (!(Number.isFinite(turn.weight) && turn.weight >= 1)) {
      problems.push(`${where}: weight ${turn.weight} is not 1 or more`)
    }
  }
  problems.push(...doubleKeys('activity', instance.activities))
  for (const activity of instance.activities) problems.push(...activityProblems(instance, activity))
  problems.push(...cycleProblems(instance.activities))
  problems.push(...pinnedProblems(instance))
  problems.push(...doubleKeys('resource', instance.resources))
  for (const { key, capacity } of instance.resources) {
    for (const [index, step] of capacity.entries()) {
      if (!Number.isSafeInteger(step.fromTick))
        problems.push(`resource ${key}: step at ${step.fromTick} is not a tick`)
      if (!isCount(step.amount))
        problems.push(`resource ${key}: amount ${step.amount} is not a whole number from 0`)
      const before = capacity[index - 1]
      if (before && before.fromTick >= step.fromTick) {
        problems.push(
          `resource ${key}: the step at ${step.fromTick} comes after the one at ${before.fromTick}`,
        )
      }
    }
  }
  problems.push(...doubleKeys('budget', instance.budgets ?? []))
  for (const { key, laneTicksMost } of instance.budgets ?? []) {
    if (!isCount(laneTicksMost))
      problems.push(`budget ${key}: ${laneTicksMost} lane-ticks are not a whole number from 0`)
  }
  problems.push(...doubleKeys('consumable', instance.consumables ?? []))
  for (const { key, amountMost } of instance.consumables ?? []) {
    if (!isCount(amountMost)) problems.push(`consumable ${key}: ${amountMost} is not a whole number from 0`)
  }
  problems.push(...doubleKeys('lane', instance.lanes))
  for (const lane of instance.lanes) problems.push(...laneProblems(instance, lane))
  problems.push(...walkProblems(instance.walkTicks))
  return problems
}

function activityProblems(instance: TurnInstance, activity: Activity): string[] {
  const problems: string[] = []
  const where = `activity ${activity.key}`
  if (!isIndex(activity.turn, instance.turns.length))
    problems.push(`${where}: there is no turn ${activity.turn}`)
  if (!isIndex(activity.place, instance.walkTicks.length))
    problems.push(`${where}: there is no place ${activity.place}`)
  if (activity.modes.length === 0) problems.push(`${where}: it has no mode`)
  for (const [index, mode] of activity.modes.entries()) {
    problems.push(...modeProblems(instance, mode).map((problem) => `${where}, mode ${index}: ${problem}`))
  }
  for (const predecessor of activity.after) {
    if (!isIndex(predecessor, instance.activities.length))
      problems.push(`${where}: there is no activity ${predecessor}`)
  }
  return problems
}

function modeProblems(instance: TurnInstance, mode: Mode): string[] {
  const problems: string[] = []
  if (!isCount(mode.durationTicks))
    problems.push(`duration ${mode.durationTicks} is not a whole number from 0`)
  if (mode.durationTicks === 0 && (mode.hands.length > 0 || mode.uses.length > 0)) {
    problems.push('without a duration it can hold neither hands nor resources')
  }
  for (const need of mode.hands) {
    if (!isCount(need.count) || need.count === 0)
      problems.push(`${need.count} hands are not a whole number from 1`)
    if (!isSkillMask(need.skillMask))
      problems.push(`skill mask ${need.skillMask} is not made of bits 0 to 30`)
  }
  for (const use of mode.uses) {
    if (!isIndex(use.resource, instance.resources.length))
      problems.push(`there is no resource ${use.resource}`)
    if (!isCount(use.amount)) problems.push(`amount ${use.amount} is not a whole number from 0`)
  }
  for (const { consumable, amount } of mode.consumes ?? []) {
    if (!isIndex(consumable, instance.consumables?.length ?? 0))
      problems.push(`there is no consumable ${consumable}`)
    if (!isCount(amount)) problems.push(`amount ${amount} is not a whole number from 0`)
  }
  return problems
}

/** Nobody reads a longer one; all of a cycle up to there is named. */
const CYCLE_NAMED_MOST = 30

/** One sentence that names a cycle, if there is one. */
function cycleProblems(activities: readonly Activity[]): string[] {
  const left = new Set(activities.keys())
  for (let found = true; found; ) {
    found = false
    for (const index of left) {
      if (activities[index]!.after.some((predecessor) => left.has(predecessor))) continue
      left.delete(index)
      found = true
    }
  }
  const [first] = left
  if (first === undefined) return []
  // Everything left has a predecessor that is left: going back from one to the next must come round.
  const path: number[] = []
  let current = first
  while (!path.includes(current)) {
    path.push(current)
    current = activities[current]!.after.find((predecessor) => left.has(predecessor))!
  }
  const cycle = path.slice(path.indexOf(current)).reverse()
  const lowest = cycle.indexOf(Math.min(...cycle))
  const round = [...cycle.slice(lowest), ...cycle.slice(0, lowest), cycle[lowest]!]
  const keys = round.map((index) => activities[index]!.key)
  const unnamed = keys.length - CYCLE_NAMED_MOST
  const named = unnamed > 1 ? [...keys.slice(0, CYCLE_NAMED_MOST - 1), `${unnamed} more`, keys.at(-1)!] : keys
  return [`activities wait for each other: ${named.join(' → ')}`]
}

function laneProblems(instance: TurnInstance, lane: Lane): string[] {
  const where = `lane ${lane.key}`
  const problems = [
    ...spanProblems(`${where}, on duty`, lane.available),
    ...spanProblems(`${where}, busy`, lane.busy),
  ]
  if (!isSkillMask(lane.skillMask))
    problems.push(`${where}: skill mask ${lane.skillMask} is not made of bits 0 to 30`)
  if (lane.budget !== undefined && !isIndex(lane.budget, instance.budgets?.length ?? 0))
    problems.push(`${where}: there is no budget ${lane.budget}`)
  for (const span of lane.busy) {
    if (!isIndex(span.place, instance.walkTicks.length))
      problems.push(`${where}: there is no place ${span.place}`)
  }
  return problems
}

function spanProblems(where: string, spans: readonly TickSpan[]): string[] {
  const problems: string[] = []
  for (const [index, span] of spans.entries()) {
    const text = `${span.from} to ${span.to}`
    if (!(Number.isSafeInteger(span.from) && Number.isSafeInteger(span.to) && span.from < span.to)) {
      problems.push(`${where}: ${text} is not a span`)
    }
    const before = spans[index - 1]
    if (before && before.to > span.from) {
      problems.push(`${where}: ${text} begins before ${before.from} to ${before.to} has ended`)
    }
  }
  return problems
}

function walkProblems(walkTicks: readonly (readonly number[])[]): string[] {
  const problems: string[] = []
  for (const [from, row] of walkTicks.entries()) {
    if (row.length !== walkTicks.length) {
      problems.push(`walking: row ${from} has ${row.length} places, not ${walkTicks.length}`)
    }
    for (const [to, ticks] of row.entries()) {
      if (!isCount(ticks))
        problems.push(`walking: ${ticks} from ${from} to ${to} is not a whole number from 0`)
      else if (from === to && ticks !== 0) problems.push(`walking: ${ticks} from ${from} to itself`)
      else if (to < walkTicks.length && walkTicks[to]![from] !== ticks) {
        problems.push(`walking: from ${from} to ${to} is not the same as back`)
      }
    }
  }
  return problems
}

function doubleKeys(what: string, things: readonly { readonly key: string }[]): string[] {
  const seen = new Set<string>()
  const problems: string[] = []
  for (const { key } of things) {
    if (seen.has(key)) problems.push(`${what} ${key}: the key occurs twice`)
    seen.add(key)
  }
  return problems
}

const isCount = (value: number): boolean => Number.isSafeInteger(value) && value >= 0 && value <= TICKS_MOST
const isIndex = (value: number, length: number): boolean =>
  Number.isSafeInteger(value) && value >= 0 && value < length
const isSkillMask = (value: number): boolean =>
  Number.isSafeInteger(value) && value >= 0 && value <= SKILL_MASK_MOST
