/** Why an activity starts when it does and not a tick earlier, all other work being where it is. */

import type { Mode, Schedule, ScheduledActivity, TurnInstance } from '../instance.ts'
import { canShareOut, couldDo, lastUntil, skillsMissing, timesOf } from './hands.ts'

/** What decided a start. Where an activity is named, that one ended right before, walking included. */
export type Bind =
  /** The room was not clear before. */
  | { readonly kind: 'release' }
  /** It had to be done first. */
  | { readonly kind: 'after'; readonly activity: number }
  /** One of its hands did that one before. */
  | { readonly kind: 'lane'; readonly lane: number; readonly activity: number }
  /** One of its hands was held by a plan that stands. */
  | { readonly kind: 'lane-held'; readonly lane: number }
  /** One of its hands came on duty then. */
  | { readonly kind: 'duty'; readonly lane: number }
  /** Too little was left of it: because of that activity, or (null) because of what stands or was closed. */
  | { readonly kind: 'resource'; readonly resource: number; readonly activity: number | null }
  /** Hands were free, but too few of them had these skills. */
  | { readonly kind: 'skill'; readonly skillMask: number; readonly activity: number | null }
  /** It could have started earlier. */
  | { readonly kind: 'none' }

/**
 * Where several things bind, the first of: precedence; release; hands, then something it uses, that other work of the
 * schedule kept until then; hands, then something it uses, that were not there. Last of all its own hands where others
 * would have been free: that these do it is the plan's choice.
 * @param seen  activities that the chain has behind this one; never given as a reason
 */
export function whatBinds(
  instance: TurnInstance,
  schedule: Schedule,
  planned: ScheduledActivity,
  seen: ReadonlySet<number>,
): Bind {
  const { after, turn } = instance.activities[planned.activity]!
  const before = after.find((at) => schedule.activities[at]!.endTick === planned.startTick && !seen.has(at))
  if (before !== undefined) return { kind: 'after', activity: before }
  if (planned.startTick === instance.turns[turn]!.releaseTick) return { kind: 'release' }
  const own = ownHandsKept(instance, schedule, planned, seen)
  const binds = [
    ...handsThatBind(instance, schedule, planned, own),
    ...usesThatBind(instance, schedule, planned, seen),
  ]
  return binds.find(namesActivity) ?? binds[0] ?? own.find(namesActivity) ?? own[0] ?? { kind: 'none' }
}

type OwnHandBind = Extract<Bind, { readonly lane: number }>

const namesActivity = (bind: Bind): boolean => 'activity' in bind && bind.activity !== null

/** What kept each of its own hands until it started; a hand that was free before is left out. */
function ownHandsKept(
  instance: TurnInstance,
  schedule: Schedule,
  planned: ScheduledActivity,
  seen: ReadonlySet<number>,
): OwnHandBind[] {
  const { startTick, endTick } = planned
  const { place } = instance.activities[planned.activity]!
  return planned.lanes.flatMap((lane): OwnHandBind[] => {
    const { held, available } = timesOf(instance, schedule, lane, planned.activity)
    const before = lastUntil(held, startTick)
    if (before && before.to + instance.walkTicks[before.place]![place]! === startTick) {
      if (before.activity === null) return [{ kind: 'lane-held', lane }]
      return seen.has(before.activity) ? [] : [{ kind: 'lane', lane, activity: before.activity }]
    }
    const wasOnDuty = available.some((span) => span.from < startTick && startTick <= span.to)
    return wasOnDuty || startTick === endTick ? [] : [{ kind: 'duty', lane }]
  })
}

/** Those of its own hands that it had to wait for: nobody else could have done it; with a skill, if it was for that. */
function handsThatBind(
  instance: TurnInstance,
  schedule: Schedule,
  planned: ScheduledActivity,
  own: readonly OwnHandBind[],
): Bind[] {
  const { hands } = modeOf(instance, planned)
  const free = instance.lanes.flatMap((lane, index) =>
    couldDo(instance, schedule, index, planned) ? [lane.skillMask] : [],
  )
  if (canShareOut(free, hands)) return []
  if (free.length < planned.lanes.length) return [...own]
  const skillMask = skillsMissing(free, hands)
  return own.flatMap((bind): Bind[] =>
    (instance.lanes[bind.lane]!.skillMask & skillMask) === skillMask
      ? [{ kind: 'skill', skillMask, activity: bind.kind === 'lane' ? bind.activity : null }]
      : [],
  )
}

/** What it uses and found too little of a tick earlier, with who used it until then. */
function usesThatBind(
  instance: TurnInstance,
  schedule: Schedule,
  planned: ScheduledActivity,
  seen: ReadonlySet<number>,
): Bind[] {
  if (planned.startTick === planned.endTick) return []
  const tick = planned.startTick - 1
  const resources = new Set(modeOf(instance, planned).uses.map((use) => use.resource))
  return [...resources].flatMap((resource): Bind[] => {
    const needed = amountOf(instance, planned, resource)
    let left = instance.resources[resource]!.capacity.findLast((step) => step.fromTick <= tick)?.amount ?? 0
    let before: ScheduledActivity | null = null
    for (const other of schedule.activities) {
      const amount = other.activity === planned.activity ? 0 : amountOf(instance, other, resource)
      if (amount === 0 || other.startTick > tick || other.endTick <= tick) continue
      left -= amount
      if (other.endTick !== planned.startTick || seen.has(other.activity)) continue
      if (before === null || amount > amountOf(instance, before, resource)) before = other
    }
    return needed > left ? [{ kind: 'resource', resource, activity: before?.activity ?? null }] : []
  })
}

const amountOf = (instance: TurnInstance, planned: ScheduledActivity, resource: number): number =>
  modeOf(instance, planned).uses.reduce((sum, use) => sum + (use.resource === resource ? use.amount : 0), 0)

const modeOf = (instance: TurnInstance, planned: ScheduledActivity): Mode =>
  instance.activities[planned.activity]!.modes[planned.mode]!
