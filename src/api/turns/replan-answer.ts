/** A turn planned from now, with names for the hands. */
import { z } from 'zod'
import { LaneId, TurnId } from '../../domain/ids.ts'
import { Instant } from '../../domain/instant.ts'
import { PlannedTask } from '../../domain/plan.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { TaskKey } from '../../domain/task.ts'
import type { ReplannedTurn } from '../../scheduler/replan/index.ts'
import { CAUTION } from '../caution.ts'
import type { LaneLabel } from './lane-labels.ts'
import { LaneAnswer, lanesOf } from './lanes-of.ts'

const TaskTold = z.object({ key: TaskKey, text: z.string() })

const Drop = z.object({
  taskKeys: z.array(TaskKey).min(1),
  savedSeconds: z.int().min(0).meta({ description: 'So much sooner the room is ready without; 0: nothing' }),
  readyAt: Instant,
  sentence: z.string(),
})

export const ReplanAnswer = z.object({
  turnId: TurnId,
  askedAt: Instant,
  dueAt: Instant,
  readyAt: Instant.nullable().meta({ description: 'null: those who are there cannot do what is left' }),
  slackSeconds: z.int().nullable().meta({ description: 'Time to spare; negative: so much late' }),
  sentence: z.string().meta({ description: 'The same, for people' }),
  way: z.enum(['as-planned', 're-timed', 'made-anew']).nullable().meta({
    description:
      'How the plan came about: as people carry it; the same hands in the same order at other times; made anew, for neither would do as well. null: no plan',
  }),
  tasks: z
    .array(
      PlannedTask.extend({
        who: z.array(z.string()).meta({ description: 'Names for laneIds, in the same order' }),
        running: z
          .boolean()
          .meta({ description: 'Somebody is at it: it starts at askedAt and ends as told' }),
      }),
    )
    .meta({ description: 'What is left, by start, then by key; nothing that is done is among it' }),
  lanes: z.array(LaneAnswer),
  criticalTaskKeys: z.array(TaskKey).meta({ description: 'A chain of tasks that decides when it is ready' }),
  changes: z
    .array(
      z.object({
        laneId: LaneId,
        label: z.string(),
        newTasks: z.array(TaskTold).meta({ description: 'By start' }),
        goneTasks: z.array(TaskTold).meta({ description: 'By start as it was' }),
      }),
    )
    .meta({
      description:
        'Who has other tasks than by the plan so far, by lane: only those have to be told. Other times alone are no change',
    }),
  dropList: z
    .object({
      items: z.array(Drop).meta({
        description: 'One for each task that can be left out and has not begun, most saved first',
      }),
      all: Drop.nullable().meta({ description: 'All of them together; null: there are not two' }),
      notListed: z
        .int()
        .min(0)
        .meta({ description: 'So many more are not gone through one by one; they are part of all together' }),
    })
    .meta({
      description:
        'What can be left out and what that saves at this moment. Never the sign-off, the ways to the exits, safety, what protects equipment, or cleaning',
    }),
  warnings: z.array(
    z.object({
      code: z.enum([
        'out-of-order',
        'milestone-late',
        'wanted-elsewhere',
        'missing-at-event',
        'missing-at-work',
        'hands-assumed',
      ]),
      taskKey: TaskKey.nullable(),
      laneIds: z.array(LaneId),
      message: z.string(),
    }),
  ),
  caution: z.string(),
})

/** @param label  of everybody in the plan as stored, and of everybody in this one */
export function replanAnswer(
  { plan, addedLaneIds, changes, ...replanned }: ReplannedTurn,
  runningKeys: ReadonlySet<string>,
  setup: Pick<SiteSetup, 'furnishings' | 'retired'>,
  label: LaneLabel,
): z.infer<typeof ReplanAnswer> {
  const named = namedWithAdded(label, addedLaneIds)
  const tasks = plan?.tasks ?? []
  return {
    ...replanned,
    dropList: {
      ...replanned.dropList,
      items: replanned.dropList.items.map(dropAnswer),
      all: replanned.dropList.all && dropAnswer(replanned.dropList.all),
    },
    warnings: replanned.warnings.map((one) => ({ ...one, laneIds: [...one.laneIds] })),
    tasks: tasks.map((task) => ({
      ...task,
      who: task.laneIds.map(named),
      running: runningKeys.has(task.key),
    })),
    lanes: lanesOf(tasks, setup, named),
    criticalTaskKeys: plan?.criticalTaskKeys ?? [],
    changes: changes.map(({ laneId, newTasks, goneTasks }) => ({
      laneId,
      label: named(laneId),
      newTasks: [...newTasks],
      goneTasks: [...goneTasks],
    })),
    caution: CAUTION,
  }
}

const dropAnswer = (drop: ReplannedTurn['dropList']['items'][number]) => ({
  ...drop,
  taskKeys: [...drop.taskKeys],
})

/** Who has come and is not listed is no hand nobody has promised. */
function namedWithAdded(label: LaneLabel, added: readonly LaneId[]): LaneLabel {
  const unlisted = added.filter((id) => id.includes('#'))
  return (laneId) => {
    const index = unlisted.indexOf(laneId)
    return index < 0 ? label(laneId) : `hand who has come ${index + 1}`
  }
}
