/**
 * The tasks that are left where what stands is not what the plan took it to be: made anew from what stands now, while
 * what is done and is not about pieces stays done.
 */
import type { FurnishingId } from '../../domain/ids.ts'
import type { Plan } from '../../domain/plan.ts'
import type { Task, TaskKey, TaskNetwork } from '../../domain/task.ts'
import type { StandsNow } from '../../domain/turn-progress.ts'
import { type NetworkInput, taskNetwork, zonesMost } from '../network/index.ts'
import { withoutTasks } from '../network/without-tasks.ts'
import { inPlaceByPlan, isFetchedInRoom, piecesLeft, spreadLeft, type Told, wantedOf } from './pieces-left.ts'

/**
 * Pieces that stand where they are wanted are left out on both sides, so nobody moves them; all others are moved, and
 * those that were put out of the way already are only fetched.
 * @param input  of the turn as it was planned
 * @param plan   that people carry
 * @returns what is left, running tasks among it, each under the key it has in the plan
 * @throws StateUnreachable when a device cannot be brought from how it is into the state that is wanted
 */
export function networkFromWhatStands(
  input: NetworkInput,
  plan: Plan,
  { done, running }: Told,
  stands: StandsNow,
): TaskNetwork {
  const left = piecesLeft(plan, { done, running })
  const inPlace = new Map<FurnishingId, number>(
    stands.pieces.map(({ furnishingId, count, inPlace: told }) => {
      const wanted = wantedOf(input, furnishingId)
      const set = told ?? inPlaceByPlan(wanted, left, furnishingId)
      return [furnishingId, Math.min(count, wanted, set)]
    }),
  )
  const standing = new Map(stands.pieces.map(({ furnishingId, count }) => [furnishingId, count]))
  const restOf = (id: FurnishingId) => (standing.get(id) ?? 0) - (inPlace.get(id) ?? 0)
  const aside = putAside(plan, done)
  const settings = new Map(stands.equipment.map((one) => [one.equipmentId, one.setting]))
  const made = taskNetwork({
    ...input,
    standing: stands.pieces.flatMap(({ furnishingId }) => {
      const count = restOf(furnishingId)
      return count > 0 ? [{ furnishingId, count }] : []
    }),
    standingKind: null,
    placementsFrom: null,
    spread: spreadLeft(left, zonesMost(input), stands),
    toLayout: {
      ...input.toLayout,
      furnishings: input.toLayout.furnishings.flatMap((one) => {
        const count = one.count - (inPlace.get(one.furnishingId) ?? 0)
        return count > 0 ? [{ ...one, count }] : []
      }),
    },
    equipmentFrom: input.equipmentFrom.map((one) => ({
      ...one,
      setting: settings.get(one.equipment.id) ?? one.setting,
    })),
    sameLayout: false,
  })
  const seen = new Set<string>(settings.keys())
  const staysDone = (task: Task) =>
    !isOfPieces(task) && !(task.equipmentId !== null && seen.has(task.equipmentId))
  const isAside = (id: FurnishingId | null) =>
    id !== null && restOf(id) > 0 && restOf(id) <= (aside.get(id) ?? 0)
  const isDone = (task: Task) =>
    (done.has(task.key) && staysDone(task)) || (task.kind === 'park' && isAside(task.furnishingId))
  const kept = withoutTasks(made, new Set(made.tasks.filter(isDone).map(({ key }) => key)))
  const told = new Set([...done, ...running])
  const renamed = underNewKeys(
    kept,
    kept.tasks.filter((task) => told.has(task.key) && !(running.has(task.key) && staysDone(task))),
  )
  return withTasksOfPlan(renamed, plan, { done, running })
}

/** Pieces that were put out of the way and are still there to be fetched. */
function putAside({ tasks }: Plan, done: ReadonlySet<TaskKey>): Map<FurnishingId, number> {
  const aside = new Map<FurnishingId, number>()
  for (const { key, kind, furnishingId, count } of tasks) {
    if (furnishingId === null || !done.has(key)) continue
    const sign = kind === 'park' ? 1 : isFetchedInRoom(key) ? -1 : 0
    aside.set(furnishingId, (aside.get(furnishingId) ?? 0) + sign * (count ?? 0))
  }
  return aside
}

/** What stands in front in a store is not seen in the room: whether it was moved is known from the tasks alone. */
const isOfPieces = ({ kind, furnishingId }: Pick<Task, 'kind' | 'furnishingId'>): boolean =>
  furnishingId !== null && kind !== 'restack'

/** Work that is to be done once more must not be taken for that which is done. */
function underNewKeys(network: TaskNetwork, again: readonly Task[]): TaskNetwork {
  if (again.length === 0) return network
  const keys = new Map(again.map(({ key }) => [key, `again/${key}`.slice(0, 200)]))
  const keyOf = (key: TaskKey) => keys.get(key) ?? key
  return {
    resources: network.resources,
    tasks: network.tasks.map((task) => ({ ...task, key: keyOf(task.key), after: task.after.map(keyOf) })),
    milestones: network.milestones.map((one) => ({ ...one, taskKeys: one.taskKeys.map(keyOf) })),
  }
}

/**
 * With what is running, and with pieces that are put back into their store because they were moved out of the way. What
 * waited for those in the plan, and the end of all, waits for them.
 */
function withTasksOfPlan(network: TaskNetwork, plan: Plan, { done, running }: Told): TaskNetwork {
  const made = new Set(network.tasks.map(({ key }) => key))
  const movedAside = new Set(
    plan.tasks.flatMap(({ key, kind, furnishingId }) =>
      kind === 'restack' && done.has(key) && furnishingId !== null ? [furnishingId] : [],
    ),
  )
  const kept = plan.tasks.filter(
    ({ key, kind, furnishingId }) =>
      !made.has(key) &&
      (running.has(key) ||
        (kind === 'restack' && !done.has(key) && furnishingId !== null && movedAside.has(furnishingId))),
  )
  if (kept.length === 0) return network
  const keptKeys = new Set(kept.map(({ key }) => key))
  const there = new Set([...made, ...keptKeys])
  const waitsInPlan = new Map(
    plan.tasks.map(({ key, after }) => [key, after.filter((one) => keptKeys.has(one))]),
  )
  const waited = new Set(network.tasks.flatMap(({ after }) => after))
  const known = new Set(network.resources.map(({ key }) => key))
  return {
    tasks: [
      ...kept.map((task): Task => ({ ...task, after: task.after.filter((key) => there.has(key)) })),
      ...network.tasks.map((task) => ({
        ...task,
        after: [
          ...new Set([
            ...task.after,
            ...(waited.has(task.key) ? (waitsInPlan.get(task.key) ?? []) : keptKeys),
          ]),
        ],
      })),
    ],
    resources: [...network.resources, ...plan.resources.filter(({ key }) => !known.has(key))],
    milestones: network.milestones,
  }
}
