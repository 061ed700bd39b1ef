/**
 * The tasks that are left where some kinds of pieces stand as the plan takes them to and others do not: those of the plan,
 * but for the others, whose tasks are made anew.
 */
import type { FurnishingId } from '../../domain/ids.ts'
import type { Task, TaskKey, TaskNetwork } from '../../domain/task.ts'
import { withoutTasks } from '../network/without-tasks.ts'
import { isSetting, isTaking, type Told } from './pieces-left.ts'

/**
 * What is made anew waits for what it would wait for, as far as that is left; what waits for it would, too; and what is set
 * waits for what is taken away in the same zone.
 * @param whole  the list of the plan
 * @param anew   made from what stands, of the other kinds alone; the keys of other work mean the same in both
 * @param other  kinds that do not stand as planned
 */
export function partlyAsPlanned(
  whole: TaskNetwork,
  anew: TaskNetwork,
  other: ReadonlySet<FurnishingId>,
  { done, running }: Told,
): TaskNetwork {
  const isOfOther = ({ furnishingId, kind }: Task) =>
    furnishingId !== null && other.has(furnishingId) && (isTaking(kind) || isSetting(kind))
  const isLeft = ({ key }: Task) => !done.has(key) && !running.has(key)
  const gone = whole.tasks.filter((task) => isOfOther(task) && isLeft(task))
  const kept = withoutTasks(whole, new Set(gone.map(({ key }) => key)))
  const made = anew.tasks.filter((task) => isOfOther(task) && !running.has(task.key))
  const madeKeys = new Set(made.map(({ key }) => key))
  const there = new Set([...kept.tasks.map(({ key }) => key), ...madeKeys])
  const waitsAnew = new Map(
    anew.tasks.map(({ key, after }) => [key, after.filter((one) => madeKeys.has(one))]),
  )
  const taken = made.filter(({ kind }) => isTaking(kind))
  const takenBefore = (task: Task): TaskKey[] =>
    isSetting(task.kind) && isLeft(task)
      ? taken
          .filter(({ zone }) => zone === null || task.zone === null || zone === task.zone)
          .map(({ key }) => key)
      : []
  const joined = kept.tasks.map((task) => ({
    ...task,
    after: distinct([...task.after, ...(waitsAnew.get(task.key) ?? []), ...takenBefore(task)]),
  }))
  const all = [
    ...joined,
    ...made.map((task) => ({ ...task, after: task.after.filter((key) => there.has(key)) })),
  ]
  const waitedFor = new Set(all.flatMap(({ after }) => after))
  const loose = made.flatMap(({ key }) => (waitedFor.has(key) ? [] : key))
  const known = new Set(kept.resources.map(({ key }) => key))
  const list: TaskNetwork = {
    tasks: all.map((task) =>
      task.kind === 'sign-off' ? { ...task, after: distinct([...task.after, ...loose]) } : task,
    ),
    resources: [...kept.resources, ...anew.resources.filter(({ key }) => !known.has(key))],
    milestones: kept.milestones.map((one) =>
      gone.length === 0 ? one : { ...one, taskKeys: distinct([...one.taskKeys, ...madeKeys]) },
    ),
  }
  const idle = list.tasks.filter((task) => isLeft(task) && isAboutPlaces(task) && !isAnythingSet(list, task))
  return withoutTasks(list, new Set(idle.map(({ key }) => key)))
}

/** Marking where things go, and lining up rows. */
const isAboutPlaces = ({ kind, furnishingId }: Task): boolean =>
  furnishingId === null && (kind === 'mark-out' || kind === 'set')

const isAnythingSet = ({ tasks }: TaskNetwork, { zone }: Task): boolean =>
  tasks.some(
    (task) =>
      task.furnishingId !== null &&
      isSetting(task.kind) &&
      (zone === null || task.zone === null || task.zone === zone),
  )

const distinct = (keys: readonly TaskKey[]): TaskKey[] => [...new Set(keys)]
