/** What a person takes to be one task: everything of one kind of work on one kind of piece, in whichever zone. */
import type { Task, TaskKind } from '../../../domain/task.ts'

/** Kinds that are one task to who does both. That they are: common practice, no source. */
const sameWork: ReadonlyMap<TaskKind, TaskKind> = new Map([
  // Whoever briefs the others walks through with them.
  ['briefing', 'walkthrough'],
  // Off the floor, to the side or to the store.
  ['park', 'strike'],
  ['warm-up', 'switch'],
])

/** One kind of piece after the other: tables and chairs are two tasks. */
const byPiece: ReadonlySet<TaskKind> = new Set(['strike', 'set', 'restack'])

/** The same for two tasks that are one to people. Every duty at the event is one of its own. */
export function workKey({
  key,
  kind: own,
  furnishingId,
}: Pick<Task, 'key' | 'kind' | 'furnishingId'>): string {
  const kind = sameWork.get(own) ?? own
  if (kind === 'duty') return key
  return byPiece.has(kind) ? `${kind}/${furnishingId}` : kind
}
