/** A turn whole: how it stands, its tasks in order of start with names for the hands, and the same by lane. */
import { z } from 'zod'
import type { Booking } from '../../domain/booking.ts'
import { ChainLink } from '../../domain/chain-link.ts'
import { AnsweredReason } from '../../domain/decision.ts'
import { Instant, laterOf } from '../../domain/instant.ts'
import { PieceMove } from '../../domain/piece-move.ts'
import { type Plan, PlannedTask, Smoothness } from '../../domain/plan.ts'
import { Reckoning } from '../../domain/reckoning.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { Milestone, TaskKey, type TaskNetwork } from '../../domain/task.ts'
import { Judgement, Turn } from '../../domain/turn.ts'
import {
  answeredReason,
  chainSentence,
  isTurnWork,
  smoothnessOf,
  smoothnessSentence,
} from '../../scheduler/decide/index.ts'
import type { ReckonedNetwork } from '../../scheduler/network/index.ts'
import { CAUTION } from '../caution.ts'
import { waysOutToday } from '../warnings/ways-out-today.ts'
import type { LaneLabel } from './lane-labels.ts'
import { LaneAnswer, lanesOf } from './lanes-of.ts'
import { notBriefed, notBriefedSentence } from './not-briefed.ts'

const EventTaskAnswer = PlannedTask.extend({
  who: z.array(z.string()).meta({ description: 'Names for laneIds, in the same order' }),
})
const TaskAnswer = EventTaskAnswer.extend({
  reckoning: Reckoning.nullable().meta({
    description: 'How its minutes come about; null: the hall was changed since the turn was judged',
  }),
})

export const TurnAnswer = z.object({
  ...Turn.omit({ plan: true, judgement: true }).shape,
  ...Judgement.omit({ reasons: true }).shape,
  reasons: z.array(AnsweredReason),
  startsAt: Judgement.shape.readyAt.meta({
    description: 'When the first task of the plan starts; null: no plan',
  }),
  tasks: z.array(TaskAnswer).meta({ description: 'By start, then by key; empty: nothing to do, or no plan' }),
  eventTasks: z.array(EventTaskAnswer).meta({
    description:
      'What the event itself takes beside the work of the turn: crew, and quiet in rooms that it hears',
  }),
  lanes: z.array(LaneAnswer),
  criticalTaskKeys: z.array(TaskKey).meta({ description: 'A chain of tasks that decides when it is ready' }),
  chain: z.array(ChainLink).meta({ description: 'The same chain, each task with what its start waited for' }),
  criticalSentence: z.string().nullable().meta({
    description:
      'Where the time of that chain goes; null: no plan, or one that was made before this was told',
  }),
  smoothness: Smoothness.nullable().meta({
    description: 'How easily people follow the plan; null: no plan',
  }),
  smoothnessSentence: z.string().nullable().meta({
    description: 'What that costs; null: nobody has looked for a plan that is easier to follow, or no plan',
  }),
  notBriefedSentence: z.string().nullable().meta({
    description:
      'Who of the crew works on it and is not on duty at its briefing; null: nobody, or no briefing',
  }),
  solverVersion: z.string().nullable(),
  workDone: z.int().nullable().meta({ description: 'Schedules generated to find the plan' }),
  milestones: z.array(z.object({ milestone: Milestone, reachedAt: Instant })).meta({
    description: 'When the plan reaches what others wait for; none: it is not touched, or not known',
  }),
  moves: z.array(PieceMove).nullable().meta({
    description:
      'Which piece goes where, of furnishings whose places are known before and after; null: the hall was changed since the turn was judged, or no plan',
  }),
  caution: z.string(),
})

export function turnAnswer(
  turn: Turn,
  { setup, named }: { readonly setup: SiteSetup; readonly named: readonly Booking[] },
  label: LaneLabel,
  reckoned: ReckonedNetwork | null,
  now: Instant,
): z.infer<typeof TurnAnswer> {
  const { plan, judgement, ...row } = turn
  // Counted from the tasks: a plan that was stored before this was counted has it too.
  const smoothness = plan && smoothnessOf(plan.tasks, plan.smoothness?.priceSeconds ?? null)
  const planned = (plan?.tasks ?? []).map((task) => ({ ...task, who: task.laneIds.map(label) }))
  const tasks = planned
    .filter(isTurnWork)
    .map((task) => ({ ...task, reckoning: reckoned?.reckonings.get(task.key) ?? null }))
  return {
    ...row,
    ...judgement,
    reasons: judgement.reasons.map((reason) => answeredReason(reason, setup, named)),
    waysOut: waysOutToday(turn, setup, now),
    startsAt: plan?.startsAt ?? null,
    tasks,
    eventTasks: planned.filter((task) => !isTurnWork(task)),
    lanes: lanesOf(planned, setup, label),
    criticalTaskKeys: plan?.criticalTaskKeys ?? [],
    chain: plan?.chain ?? [],
    criticalSentence: plan && sentenceOf(plan),
    smoothness,
    smoothnessSentence: smoothness && smoothnessSentence(smoothness),
    notBriefedSentence: plan && notBriefedSentence(notBriefed(plan.tasks, setup), label),
    solverVersion: plan?.solverVersion ?? null,
    workDone: plan?.workDone ?? null,
    milestones: plan && reckoned ? milestonesReached(plan, reckoned.network) : [],
    moves: reckoned && [...reckoned.moves],
    caution: CAUTION,
  }
}

function sentenceOf({ chain, tasks }: Plan): string | null {
  return chain.length === 0 && tasks.some(isTurnWork) ? null : chainSentence(chain, tasks)
}

/** In the order in which the network names them. */
const milestonesReached = ({ tasks, startsAt }: Plan, { milestones }: TaskNetwork) =>
  milestones.map(({ milestone, taskKeys }) => ({
    milestone,
    reachedAt: tasks
      .filter(({ key }) => taskKeys.includes(key))
      .reduce((latestAt, { endsAt }) => laterOf(latestAt, endsAt), startsAt),
  }))
