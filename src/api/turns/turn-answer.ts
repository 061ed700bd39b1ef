/** A turn whole: how it stands, its tasks in order of start with names for the hands, and the same by lane. */
import { z } from 'zod'
import { AnsweredReason } from '../../domain/decision.ts'
import { LaneId } from '../../domain/ids.ts'
import { Instant, laterOf } from '../../domain/instant.ts'
import { type Plan, PlannedTask } from '../../domain/plan.ts'
import { Reckoning } from '../../domain/reckoning.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { Milestone, TaskKey, type TaskNetwork } from '../../domain/task.ts'
import { Judgement, Turn } from '../../domain/turn.ts'
import { answeredReason } from '../../scheduler/decide/index.ts'
import type { ReckonedNetwork } from '../../scheduler/network/index.ts'
import { CAUTION } from '../caution.ts'
import type { LaneLabel } from './lane-labels.ts'

const TaskAnswer = PlannedTask.extend({
  who: z.array(z.string()).meta({ description: 'Names for laneIds, in the same order' }),
  reckoning: Reckoning.nullable().meta({
    description: 'How its minutes come about; null: the hall was changed since the turn was judged',
  }),
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
  milestones: z.array(z.object({ milestone: Milestone, reachedAt: Instant })).meta({
    description: 'When the plan reaches what others wait for; none: it is not touched, or not known',
  }),
  caution: z.string(),
})

export function turnAnswer(
  turn: Turn,
  setup: SiteSetup,
  label: LaneLabel,
  reckoned: ReckonedNetwork | null,
): z.infer<typeof TurnAnswer> {
  const { plan, judgement, ...row } = turn
  const tasks = (plan?.tasks ?? []).map((task) => ({
    ...task,
    who: task.laneIds.map(label),
    reckoning: reckoned?.reckonings.get(task.key) ?? null,
  }))
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
    milestones: plan && reckoned ? milestonesReached(plan, reckoned.network) : [],
    caution: CAUTION,
  }
}

/** In the order in which the network names them. */
const milestonesReached = ({ tasks }: Plan, { milestones }: TaskNetwork) =>
  milestones.map(({ milestone, taskKeys }) => ({
    milestone,
    reachedAt: tasks
      .filter(({ key }) => taskKeys.includes(key))
      .reduce((latestAt, { endsAt }) => laterOf(latestAt, endsAt), tasks[0]!.startsAt),
  }))

/** By lane id. */
export function lanesOf(tasks: readonly PlannedTask[], label: LaneLabel): LaneAnswer[] {
  const laneIds = [...new Set(tasks.flatMap((task) => task.laneIds))].sort()
  return laneIds.map((laneId) => ({
    laneId,
    label: label(laneId),
    tasks: tasks.filter((task) => task.laneIds.includes(laneId)).map(({ key }) => key),
  }))
}
