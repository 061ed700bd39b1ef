/** A turn whole: how it stands, its tasks in order of start with names for the hands, and the same by lane. */
import { z } from 'zod'
import { AnsweredReason } from '../../domain/decision.ts'
import { LaneId } from '../../domain/ids.ts'
import { PlannedTask } from '../../domain/plan.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { TaskKey } from '../../domain/task.ts'
import { Judgement, Turn } from '../../domain/turn.ts'
import { answeredReason } from '../../scheduler/decide/index.ts'
import { CAUTION } from '../caution.ts'
import type { LaneLabel } from './lane-labels.ts'

const TaskAnswer = PlannedTask.extend({
  who: z.array(z.string()).meta({ description: 'Names for laneIds, in the same order' }),
})

const LaneAnswer = z.object({
  laneId: LaneId,
  label: z.string(),
  tasks: z.array(TaskKey).meta({ description: 'Keys of its tasks, by start' }),
})
type LaneAnswer = z.infer<typeof LaneAnswer>

export const TurnAnswer = z.object({
  ...Turn.omit({ plan: true, judgement: true }).shape,
  ...Judgement.omit({ reasons: true }).shape,
  reasons: z.array(AnsweredReason),
  startsAt: Judgement.shape.readyAt.meta({
    description: 'When the first task of the plan starts; null: no plan',
  }),
  tasks: z.array(TaskAnswer).meta({ description: 'By start, then by key; empty: nothing to do, or no plan' }),
  lanes: z.array(LaneAnswer),
  criticalTaskKeys: z.array(TaskKey).meta({ description: 'A chain of tasks that decides when it is ready' }),
  solverVersion: z.string().nullable(),
  workDone: z.int().nullable().meta({ description: 'Schedules generated to find the plan' }),
  caution: z.string(),
})

export function turnAnswer(turn: Turn, setup: SiteSetup, label: LaneLabel): z.infer<typeof TurnAnswer> {
  const { plan, judgement, ...row } = turn
  const tasks = (plan?.tasks ?? []).map((task) => ({ ...task, who: task.laneIds.map(label) }))
  return {
    ...row,
    ...judgement,
    reasons: judgement.reasons.map((reason) => answeredReason(reason, setup)),
    startsAt: plan?.startsAt ?? null,
    tasks,
    lanes: lanesOf(tasks, label),
    criticalTaskKeys: plan?.criticalTaskKeys ?? [],
    solverVersion: plan?.solverVersion ?? null,
    workDone: plan?.workDone ?? null,
    caution: CAUTION,
  }
}

/** By lane id. */
export function lanesOf(tasks: readonly PlannedTask[], label: LaneLabel): LaneAnswer[] {
  const laneIds = [...new Set(tasks.flatMap((task) => task.laneIds))].sort()
  return laneIds.map((laneId) => ({
    laneId,
    label: label(laneId),
    tasks: tasks.filter((task) => task.laneIds.includes(laneId)).map(({ key }) => key),
  }))
}
