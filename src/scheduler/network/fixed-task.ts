/** A task of the whole room that is not about pieces: a fixed time, whoever does it. */
import type { ReckonedNumber } from '../../domain/reckoning.ts'
import type { Task, TaskKey, TaskKind } from '../../domain/task.ts'
import type { TaskMode } from '../../domain/task-mode.ts'
import type { Skill } from '../../domain/units.ts'
import type { TurnOutline } from './outline.ts'
import { reckoningOfFixedTime } from './reckoned-numbers.ts'

export interface FixedTask {
  readonly key: TaskKey
  readonly kind: TaskKind
  readonly zone?: number
  readonly text: string
  readonly place: string
  /** Fewest hands first; with 0 hands it runs by itself. */
  readonly modes: readonly TaskMode[]
  readonly equipmentId?: NonNullable<Task['equipmentId']>
  readonly skill?: Skill | null
  /** Left out: only where its skill is for adults. */
  readonly adultsOnly?: boolean
  readonly after: readonly TaskKey[]
  readonly safetyNotes: readonly string[]
  /** What the time is for, and where seconds and hands of the first mode come from. */
  readonly reckon: () => {
    readonly what: string
    readonly seconds: ReckonedNumber
    readonly hands: ReckonedNumber
  }
}

/**
 * Its work is that of its mode with the fewest hands; neither pace nor allowance changes it. What takes a skill that no
 * minor may have is for adults.
 */
export function fixedTask({ input, reckonings }: TurnOutline, fixed: FixedTask): Task {
  const leanest = fixed.modes[0]!
  const skill = fixed.skill ?? null
  const task: Task = {
    key: fixed.key,
    kind: fixed.kind,
    zone: fixed.zone ?? null,
    text: fixed.text,
    count: null,
    furnishingId: null,
    equipmentId: fixed.equipmentId ?? null,
    fromPlace: null,
    toPlace: fixed.place,
    workPersonSeconds: leanest.hands * leanest.seconds,
    modes: [...fixed.modes],
    skill,
    adultsOnly:
      (fixed.adultsOnly ?? false) || (skill !== null && input.policy.adultOnlySkills.includes(skill)),
    uses: [],
    after: [...fixed.after],
    safetyNotes: [...fixed.safetyNotes],
  }
  if (reckonings) {
    const { what, seconds, hands } = fixed.reckon()
    reckonings.set(task.key, reckoningOfFixedTime(what, seconds, hands, task))
  }
  return task
}
