/** What those who do a turn should look at when its plan is made anew. None of it keeps the plan from being made. */
import type { LaneId } from '../../domain/ids.ts'
import type { Plan } from '../../domain/plan.ts'
import type { TaskKey } from '../../domain/task.ts'
import type { Turn } from '../../domain/turn.ts'
import { isTurnWork } from '../decide/index.ts'
import { isAssumed } from '../decide/plan/lanes-for.ts'
import { counted } from '../wording/counted.ts'
import { listText, someText } from '../wording/list-text.ts'
import type { HandsNow } from './hands-now.ts'
import { taskText } from './replan-words.ts'
import type { RunningNow } from './running-now.ts'

export interface ReplanWarning {
  readonly code:
    | 'out-of-order'
    | 'milestone-late'
    | 'wanted-elsewhere'
    | 'missing-at-event'
    | 'missing-at-work'
    | 'hands-assumed'
  readonly taskKey: TaskKey | null
  readonly laneIds: readonly LaneId[]
  readonly message: string
}

/** What is done or running although something that it waits for is neither. In order of the plan. */
export function outOfOrder(
  { tasks }: Plan,
  done: ReadonlySet<TaskKey>,
  running: ReadonlySet<TaskKey>,
): ReplanWarning[] {
  const byKey = new Map(tasks.map((task) => [task.key, task]))
  return tasks.flatMap((task): ReplanWarning[] => {
    if (!done.has(task.key) && !running.has(task.key)) return []
    const missed = task.after.filter((key) => !done.has(key) && byKey.has(key))
    if (missed.length === 0) return []
    const state = done.has(task.key) ? 'done' : 'running'
    const before = someText(missed.map((key) => `“${taskText(byKey.get(key)!)}”`))
    const isOne = missed.length === 1
    return [
      {
        code: 'out-of-order',
        taskKey: task.key,
        laneIds: [],
        message: `“${taskText(task)}” is told as ${state}, and what comes before it is not done: ${before}. What comes after it still waits for ${isOne ? 'that' : 'those'}.`,
      },
    ]
  })
}

/** Those who are still at a task of this turn when another turn counts on them. By task, then turn. */
export function wantedElsewhere(running: readonly RunningNow[], others: readonly Turn[]): ReplanWarning[] {
  return running.flatMap(({ task }) =>
    others.flatMap((turn): ReplanWarning[] => {
      const tasks = (turn.plan?.tasks ?? []).filter(
        (other) =>
          other.startsAt < task.endsAt &&
          task.startsAt < other.endsAt &&
          other.laneIds.some((id) => task.laneIds.includes(id)),
      )
      const laneIds = [...new Set(tasks.flatMap((other) => other.laneIds))].filter((id) =>
        task.laneIds.includes(id),
      )
      const [first] = tasks
      if (!first) return []
      return [
        {
          code: 'wanted-elsewhere',
          taskKey: task.key,
          laneIds: laneIds.sort(),
          message: `Who is at “${taskText(task)}” is counted on for “${taskText(first)}” before that is over.`,
        },
      ]
    }),
  )
}

/** Those who are told to be at something that runs, and to be gone before it is over. By task. */
export const missingAtWork = (running: readonly RunningNow[], { missing }: HandsNow): ReplanWarning[] =>
  running.flatMap(({ task }): ReplanWarning[] => {
    const laneIds = task.laneIds
      .filter((id) =>
        missing.some(
          ({ laneId, fromAt, toAt }) => laneId === id && fromAt < task.endsAt && task.startsAt < toAt,
        ),
      )
      .sort()
    if (laneIds.length === 0) return []
    const message = `Who is at “${taskText(task)}” is told to be missing before that is over: it is planned as if they stayed until then. Say who is at it, if it is somebody else.`
    return [{ code: 'missing-at-work', taskKey: task.key, laneIds, message }]
  })

/** Crew that the event itself asks for and that is missing then. */
export const missingAtEvent = ({ tasks }: Plan, { missing }: HandsNow): ReplanWarning[] =>
  tasks
    .filter((task) => !isTurnWork(task))
    .flatMap((task): ReplanWarning[] => {
      const gone = missing.filter(
        ({ laneId, fromAt, toAt }) =>
          task.laneIds.includes(laneId) && fromAt < task.endsAt && task.startsAt < toAt,
      )
      if (gone.length === 0) return []
      const laneIds = [...new Set(gone.map(({ laneId }) => laneId))].sort()
      const message = `${counted(laneIds.length, 'hand')} short for “${taskText(task)}”: find somebody else.`
      return [{ code: 'missing-at-event', taskKey: task.key, laneIds, message }]
    })

/** @param added  those who have come are no assumption */
export function handsAssumed({ tasks }: Plan, { added }: HandsNow): ReplanWarning[] {
  const come = new Set(added.map(({ laneId }) => laneId))
  const laneIds = [
    ...new Set(tasks.flatMap((task) => task.laneIds.filter((id) => isAssumed(id) && !come.has(id)))),
  ].sort()
  if (laneIds.length === 0) return []
  const message = `It counts on ${counted(laneIds.length, 'hand')} nobody has promised: say that ${listText(laneIds)} ${laneIds.length === 1 ? 'is' : 'are'} missing if nobody has come.`
  return [{ code: 'hands-assumed', taskKey: null, laneIds, message }]
}
