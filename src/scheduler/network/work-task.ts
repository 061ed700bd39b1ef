/** A task of divisible work that is not about moving pieces of one furnishing: cleaning, marking, aligning, bins. */
import type { ReckonedTerm } from '../../domain/reckoning.ts'
import type { Task, TaskKey, TaskKind } from '../../domain/task.ts'
import type { TurnOutline } from './outline.ts'
import { reckoningOfWork } from './reckoned-numbers.ts'
import { modesOfWork, workPersonSeconds } from './work-content.ts'

export interface WorkTask {
  readonly key: TaskKey
  readonly kind: TaskKind
  /** null: the whole room. */
  readonly zone: number | null
  readonly count: number | null
  readonly furnishingId: Task['furnishingId']
  readonly fromPlace: string | null
  readonly toPlace: string | null
  readonly practisedPersonSeconds: number
  /** Ascending, not empty. */
  readonly hands: readonly number[]
  readonly text: (modes: Task['modes']) => string
  /** Asked only when somebody wants an explanation. They add up to the practised work. */
  readonly terms: () => ReckonedTerm[]
  readonly adultsOnly: boolean
  readonly uses: Task['uses']
  readonly after: readonly TaskKey[]
  readonly safetyNotes: readonly string[]
  /** The room can be used without it. Left out: no. */
  readonly optional?: boolean
}

export function workTask({ input, reckonings }: TurnOutline, work: WorkTask): Task {
  const workSeconds = workPersonSeconds(work.practisedPersonSeconds, input.policy)
  const modes = modesOfWork(workSeconds, work.hands, input.policy)
  const task: Task = {
    key: work.key,
    kind: work.kind,
    zone: work.zone,
    text: work.text(modes),
    count: work.count,
    furnishingId: work.furnishingId,
    equipmentId: null,
    fromPlace: work.fromPlace,
    toPlace: work.toPlace,
    workPersonSeconds: workSeconds,
    modes,
    skill: null,
    adultsOnly: work.adultsOnly,
    uses: [...work.uses],
    after: [...work.after],
    safetyNotes: [...work.safetyNotes],
    ...(work.optional ? { optional: true } : {}),
  }
  reckonings?.set(task.key, reckoningOfWork(input, work.terms(), task))
  return task
}

/** 1, 2, … up to a number of hands, at least one. */
export const handsUpTo = (most: number): number[] =>
  Array.from({ length: Math.max(1, Math.floor(most)) }, (_, index) => index + 1)
