/**
 * A plan as those who carry it out see it: for each of them a few tasks, each a run of one kind of work. A long pause, a
 * night for one, cuts a run in two: what goes on after it is the same task, and is counted once.
 */
import type { FurnishingId, LaneId } from '../../../domain/ids.ts'
import { type Instant, laterOf, secondsBetween } from '../../../domain/instant.ts'
import type { PlannedTask, Smoothness } from '../../../domain/plan.ts'
import type { TaskKind } from '../../../domain/task.ts'
import { workKey } from './work-key.ts'

export interface Stint {
  /** In order of first appearance. */
  readonly kinds: readonly TaskKind[]
  /** What it is about; null: not one kind of piece. */
  readonly furnishingId: FurnishingId | null
  /** Ascending; what is done in the whole room names none. */
  readonly zones: readonly number[]
  readonly startsAt: Instant
  readonly endsAt: Instant
  /** The same task as the one before, which a pause has cut in two. */
  readonly goesOn: boolean
  /** By start, at least one. */
  readonly tasks: readonly PlannedTask[]
}

/** Who has nothing to do for longer has left off, or is off duty: common practice, no source. */
const PAUSE_MOST_SECONDS = 30 * 60

/** @param tasks  in order of start @returns by lane id, each in order of time */
export function stintsByLane(tasks: readonly PlannedTask[]): ReadonlyMap<LaneId, readonly Stint[]> {
  const laneIds = [...new Set(tasks.flatMap((task) => task.laneIds))].sort()
  return new Map(laneIds.map((laneId) => [laneId, stintsIn(tasksOf(tasks, laneId))]))
}

const tasksOf = (tasks: readonly PlannedTask[], laneId: LaneId): PlannedTask[] =>
  tasks.filter((task) => task.laneIds.includes(laneId))

function stintsIn(own: readonly PlannedTask[]): Stint[] {
  const runs: { readonly tasks: PlannedTask[]; readonly goesOn: boolean }[] = []
  for (const task of own) {
    const run = runs.at(-1)?.tasks
    const isSame = run?.[0] !== undefined && workKey(run[0]) === workKey(task)
    const isAtOnce =
      isSame &&
      secondsBetween(run.map(({ endsAt }) => endsAt).reduce(laterOf), task.startsAt) <= PAUSE_MOST_SECONDS
    if (isAtOnce) run.push(task)
    else runs.push({ tasks: [task], goesOn: isSame })
  }
  return runs.map(stintOf)
}

function stintOf({ tasks, goesOn }: { tasks: readonly PlannedTask[]; goesOn: boolean }): Stint {
  const pieces = [...new Set(tasks.map(({ furnishingId }) => furnishingId))]
  return {
    kinds: [...new Set(tasks.map(({ kind }) => kind))],
    furnishingId: pieces.length === 1 ? pieces[0]! : null,
    zones: [...new Set(tasks.flatMap(({ zone }) => zone ?? []))].sort((a, b) => a - b),
    startsAt: tasks[0]!.startsAt,
    endsAt: tasks.map(({ endsAt }) => endsAt).reduce(laterOf),
    goesOn,
    tasks,
  }
}

/**
 * How easily people follow a plan. One pass, for it is counted of every plan that a decision makes.
 * @param tasks  in order of start
 * @param priceSeconds  null: nobody has looked for a plan that is easier to follow
 */
export function smoothnessOf(tasks: readonly PlannedTask[], priceSeconds: number | null): Smoothness {
  const lastByLane = new Map<
    LaneId,
    { readonly task: PlannedTask; readonly work: string; readonly stints: number }
  >()
  let [changes, zoneChanges, stintsMost, partings] = [0, 0, 0, 0]
  for (const task of tasks) {
    const work = workKey(task)
    for (const laneId of task.laneIds) {
      const last = lastByLane.get(laneId)
      const isChange = last !== undefined && last.work !== work
      if (isChange) changes += 1
      else if (last && last.task.zone !== task.zone) zoneChanges += 1
      if (last && isParting(last.task, task, laneId)) partings += 1
      const stints = last === undefined ? 1 : last.stints + (isChange ? 1 : 0)
      stintsMost = Math.max(stintsMost, stints)
      lastByLane.set(laneId, { task, work, stints })
    }
  }
  return { changes, zoneChanges, stintsMost, partings, priceSeconds }
}

/** Whether somebody had company, and in what comes next has none of it. */
const isParting = (before: PlannedTask, next: PlannedTask, laneId: LaneId): boolean =>
  before.laneIds.length > 1 &&
  !before.laneIds.some((other) => other !== laneId && next.laneIds.includes(other))
