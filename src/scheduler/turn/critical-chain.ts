/** What explains when a turn is ready: one task after the other, each of which could begin when the one before ended. */
import type { Mode, Schedule, ScheduledActivity, TurnInstance } from './instance.ts'

/**
 * The chain ends with the activity of the turn that ends last. From there back: what it waited for by precedence, else
 * what held one of its lanes (walking included), else what held a resource it needs; until something starts for another
 * reason (its release, hands coming on duty, work of plans that stand). Work of other turns can be in it.
 * @returns indices of activities in order of time; empty for a turn without activities
 */
export function criticalChain(instance: TurnInstance, schedule: Schedule, turnIndex: number): number[] {
  let current: ScheduledActivity | null = null
  for (const planned of schedule.activities) {
    if (instance.activities[planned.activity]!.turn !== turnIndex) continue
    if (current === null || planned.endTick > current.endTick) current = planned
  }
  const chain: number[] = []
  while (current !== null && chain.length < schedule.activities.length) {
    chain.push(current.activity)
    current = whatItWaitedFor(instance, schedule, current)
  }
  return chain.reverse()
}

function whatItWaitedFor(
  instance: TurnInstance,
  schedule: Schedule,
  planned: ScheduledActivity,
): ScheduledActivity | null {
  const activity = instance.activities[planned.activity]!
  const endsRightBefore = (other: ScheduledActivity, walk: number): boolean =>
    other.activity !== planned.activity && other.endTick + walk === planned.startTick
  const byPrecedence = schedule.activities.find(
    (other) => activity.after.includes(other.activity) && endsRightBefore(other, 0),
  )
  if (byPrecedence) return byPrecedence
  if (planned.startTick === instance.turns[activity.turn]!.releaseTick) return null
  const byLane = schedule.activities.find((other) => {
    const walk = instance.walkTicks[instance.activities[other.activity]!.place]![activity.place]!
    return endsRightBefore(other, walk) && other.lanes.some((lane) => planned.lanes.includes(lane))
  })
  if (byLane) return byLane
  const used = new Set(modeOf(instance, planned).uses.map((use) => use.resource))
  const byResource = schedule.activities.find(
    (other) =>
      endsRightBefore(other, 0) && modeOf(instance, other).uses.some((use) => used.has(use.resource)),
  )
  return byResource ?? null
}

const modeOf = (instance: TurnInstance, planned: ScheduledActivity): Mode =>
  instance.activities[planned.activity]!.modes[planned.mode]!
