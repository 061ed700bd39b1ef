/** How calmly a schedule goes for the people who carry it out: how often they change their work, and their company. */
import type { Schedule, ScheduledActivity, TurnInstance } from '../instance.ts'

/** About so many different tasks can be told to a person at once: common practice, no source. */
export const STINTS_WANTED_MOST = 5

/**
 * What a schedule is judged by, in this order, each the lower the better. A stint is a run of activities of one lane, one
 * after the other, that are of one group: to who does it, one task. Activities without hands count nowhere.
 */
export interface CarriedWorth {
  /** Over all lanes: how far their stints are above those that a person can keep in mind, as `stintsOver` weighs it. */
  readonly stintsOver: number
  /** Over all lanes: how often the next activity of a lane is of another group than the one before. */
  readonly changes: number
  /** Over all lanes: how often the next activity of a lane is of the same group, and of another zone. */
  readonly zoneChanges: number
  /**
   * Over all lanes: how often a lane that had company in an activity has nobody of that company with it in its next.
   * A pair that parts and works on counts 2; four that go on as two pairs count 0.
   */
  readonly partings: number
  readonly weightedReadyTicks: number
  readonly personTicks: number
}

/** The group of each activity, by index; one that has none gets a number of its own. */
export function groupsOf({ activities }: TurnInstance): number[] {
  const least = activities.reduce((low, { group }) => Math.min(low, group ?? 0), 0)
  return activities.map(({ group }, index) => group ?? least - 1 - index)
}

/** The activities that have hands, in order of time: those of a lane follow each other in this order. */
export const inOrderOfTime = (schedule: Schedule): ScheduledActivity[] =>
  schedule.activities
    .filter(({ lanes }) => lanes.length > 0)
    .sort((a, b) => a.startTick - b.startTick || a.endTick - b.endTick || a.activity - b.activity)

/** @param groups  as `groupsOf` gives them */
export function carriedWorth(
  instance: TurnInstance,
  groups: readonly number[],
  schedule: Schedule,
): CarriedWorth {
  const last: (ScheduledActivity | undefined)[] = instance.lanes.map(() => undefined)
  const stints = instance.lanes.map(() => 0)
  const zoneOf = ({ activity }: ScheduledActivity) => instance.activities[activity]!.zone
  let changes = 0
  let zoneChanges = 0
  let partings = 0
  let personTicks = 0
  for (const planned of inOrderOfTime(schedule)) {
    personTicks += planned.lanes.length * (planned.endTick - planned.startTick)
    for (const lane of planned.lanes) {
      const before = last[lane]
      if (before && isParting(before.lanes, planned.lanes, lane)) partings += 1
      if (before && groups[before.activity] === groups[planned.activity]) {
        if (zoneOf(before) !== zoneOf(planned)) zoneChanges += 1
        continue
      }
      stints[lane]! += 1
      if (before) changes += 1
    }
    for (const lane of planned.lanes) last[lane] = planned
  }
  return {
    stintsOver: stints.reduce((sum, count) => sum + stintsOver(count), 0),
    changes,
    zoneChanges,
    partings,
    weightedReadyTicks: instance.turns.reduce(
      (sum, { weight }, turn) => sum + weight * schedule.readyTicks[turn]!,
      0,
    ),
    personTicks,
  }
}

/** Of one lane; each stint more weighs one more than the one before it, so that no one person has most of them. */
export function stintsOver(stints: number): number {
  const over = Math.max(0, stints - STINTS_WANTED_MOST)
  return (over * (over + 1)) / 2
}

/** Whether the lane had company before and none of it is left. */
export function isParting(before: readonly number[], after: readonly number[], lane: number): boolean {
  if (before.length < 2) return false
  for (const other of before) if (other !== lane && after.includes(other)) return false
  return true
}

/** Below 0: `a` is the better one; 0: they are equal in all that counts. */
export const worthDifference = (a: CarriedWorth, b: CarriedWorth): number =>
  a.stintsOver - b.stintsOver ||
  a.changes - b.changes ||
  a.zoneChanges - b.zoneChanges ||
  a.partings - b.partings ||
  a.weightedReadyTicks - b.weightedReadyTicks ||
  a.personTicks - b.personTicks
