/** Between schedules, in ticks and indices, and plans, with names and moments: what is stored and shown. */
import type { Instant } from '../../../domain/instant.ts'
import type { Plan, PlannedTask } from '../../../domain/plan.ts'
import { criticalChain, type Schedule, type ScheduledActivity, SOLVER_VERSION } from '../../turn/index.ts'
import type { BuiltInstance, BuiltPart } from './built-instance.ts'
import { isTurnWork } from './event-tasks.ts'
import { smoothnessOf } from './stints-of.ts'
import { TICK_MS } from './tick-grid.ts'
import { chainLinks } from './what-binds.ts'

/**
 * @param part  the turn of the instance whose plan it is
 * @param priceSeconds  what it costs that people follow it easily; null: nobody has looked for such a plan
 */
export function planOf(
  built: BuiltInstance,
  part: BuiltPart,
  schedule: Schedule,
  workDone: number,
  priceSeconds: number | null,
): Plan {
  const at = (tick: number) => (built.originAt + tick * TICK_MS) as Instant
  const tasks = part.network.tasks.map((task, index): PlannedTask => {
    const scheduled = schedule.activities[part.firstActivity + index]!
    // Member by member: one that is spread and added to takes a hundred times as long, and there are many.
    return {
      key: task.key,
      kind: task.kind,
      zone: task.zone,
      text: task.text,
      count: task.count,
      furnishingId: task.furnishingId,
      equipmentId: task.equipmentId,
      fromPlace: task.fromPlace,
      toPlace: task.toPlace,
      workPersonSeconds: task.workPersonSeconds,
      modes: task.modes,
      skill: task.skill,
      adultsOnly: task.adultsOnly,
      uses: task.uses,
      after: task.after,
      safetyNotes: task.safetyNotes,
      optional: task.optional,
      hands: scheduled.lanes.length,
      laneIds: scheduled.lanes.map((lane) => built.lanes[lane]!.laneId),
      startsAt: at(scheduled.startTick),
      endsAt: at(scheduled.endTick),
    }
  })
  tasks.sort((a, b) => a.startsAt - b.startsAt || (a.key < b.key ? -1 : 1))
  const readyAt = at(readyTickOf(built, part, schedule))
  const steps = criticalChain(built.instance, schedule, decidingTurn(built, part, schedule))
  const chain = chainLinks(built, steps)
  return {
    tasks,
    resources: [...part.network.resources],
    startsAt: tasks.find(isTurnWork)?.startsAt ?? readyAt,
    readyAt,
    criticalTaskKeys: chain.map(({ taskKey }) => taskKey),
    chain,
    smoothness: smoothnessOf(tasks, priceSeconds),
    solverVersion: SOLVER_VERSION,
    workDone,
  }
}

/** When the work of the turn is done, that of its milestones too. */
export const readyTickOf = (built: BuiltInstance, part: BuiltPart, schedule: Schedule): number =>
  readyTickIn(built, schedule, decidingTurn(built, part, schedule))

/** Of the turn and its milestones the one that is done last. */
const decidingTurn = (built: BuiltInstance, { turn, milestones }: BuiltPart, schedule: Schedule): number =>
  milestones.reduce(
    (last, one) =>
      readyTickIn(built, schedule, one.turn) > readyTickIn(built, schedule, last) ? one.turn : last,
    turn,
  )

/** A milestone that nothing waits for is reached at once, and no earlier than the room is clear. */
const readyTickIn = ({ instance }: BuiltInstance, schedule: Schedule, turn: number): number =>
  schedule.readyTicks[turn] ?? instance.turns[turn]!.releaseTick

/**
 * The schedule that stored plans are, on this instance.
 * @param plans  one for each part
 * @returns null when they do not speak of the same tasks and hands
 */
export function scheduleOf(built: BuiltInstance, plans: readonly Plan[]): Schedule | null {
  const activities: ScheduledActivity[] = []
  for (const [index, part] of built.parts.entries()) {
    const plan = plans[index]
    const own = plan ? plannedActivities(built, part, plan) : null
    if (own === null) return null
    activities.push(...own)
  }
  return scheduleWith(built, activities)
}

/** @returns the work of one part as its plan has it; null when it does not speak of the same tasks and hands */
export function plannedActivities(
  built: BuiltInstance,
  part: BuiltPart,
  plan: Plan,
): ScheduledActivity[] | null {
  const activities: ScheduledActivity[] = []
  const tick = (moment: Instant) => (moment - built.originAt) / TICK_MS
  const plannedByKey = new Map(plan.tasks.map((task) => [task.key, task]))
  if (plannedByKey.size !== part.network.tasks.length) return null
  for (const [index, task] of part.network.tasks.entries()) {
    const planned = plannedByKey.get(task.key)
    const mode = task.modes.findIndex((way) => way.hands === planned?.hands)
    if (!planned || mode < 0) return null
    const lanes = planned.laneIds.map((laneId) => laneAt(built, laneId, planned))
    if (lanes.includes(-1)) return null
    activities.push({
      activity: part.firstActivity + index,
      mode,
      startTick: tick(planned.startsAt),
      endTick: tick(planned.endsAt),
      lanes,
    })
  }
  return activities
}

/** @param activities  all of the instance, in order */
export function scheduleWith(
  { instance }: BuiltInstance,
  activities: readonly ScheduledActivity[],
): Schedule {
  const readyTicks = instance.turns.map(({ releaseTick }, turn) =>
    activities.reduce(
      (ready, { activity, endTick }) =>
        instance.activities[activity]?.turn === turn ? Math.max(ready, endTick) : ready,
      releaseTick,
    ),
  )
  return { activities, readyTicks }
}

/** Of somebody whose skills change, the stretch in which the task lies. */
function laneAt({ lanes }: BuiltInstance, laneId: string, { startsAt, endsAt }: PlannedTask): number {
  const first = lanes.findIndex((lane) => lane.laneId === laneId)
  if (first < 0 || lanes[first + 1]?.laneId !== laneId) return first
  const there = lanes.findIndex(
    (lane) =>
      lane.laneId === laneId && lane.onDuty.some(({ fromAt, toAt }) => fromAt <= startsAt && endsAt <= toAt),
  )
  return there < 0 ? first : there
}
