/** A task of the whole room that is not about pieces: a fixed time, whoever does it. */
import type { Task, TaskKey, TaskKind, TaskMode } from '../../domain/task.ts'

export interface FixedTask {
  readonly key: TaskKey
  readonly kind: TaskKind
  readonly text: string
  readonly place: string
  /** Fewest hands first. */
  readonly modes: readonly TaskMode[]
  readonly after: readonly TaskKey[]
  readonly safetyNotes: readonly string[]
}

/** Its work is that of its mode with the fewest hands; neither pace nor allowance changes it. */
export function fixedTask({ key, kind, text, place, modes, after, safetyNotes }: FixedTask): Task {
  const leanest = modes[0]!
  return {
    key,
    kind,
    zone: null,
    text,
    count: null,
    furnishingId: null,
    equipmentId: null,
    fromPlace: null,
    toPlace: place,
    workPersonSeconds: leanest.hands * leanest.seconds,
    modes: [...modes],
    skill: null,
    adultsOnly: false,
    uses: [],
    after: [...after],
    safetyNotes: [...safetyNotes],
  }
}
