/** What others may wait for before doors: the tasks after which each milestone of a turn is reached. */
import type { FurnishingKind } from '../../domain/furnishing.ts'
import type { Milestone, NetworkMilestone, Task, TaskKey } from '../../domain/task.ts'
import type { NetworkInput } from './network-input.ts'
import { isChair, isTable } from './piece-kinds.ts'

/**
 * In the order of a turn; those that nothing in it touches are left out. The floor is clear when everything is out that
 * has to go; what stays where it is stands on it all the same.
 * @param struckEnds   what is struck last in each zone, `startKeys` where nothing is
 * @param deviceEnds   after which each device that is switched is as wanted, warm too
 */
export function networkMilestones(
  { furnishings }: NetworkInput,
  tasks: readonly Task[],
  struckEnds: readonly TaskKey[],
  startKeys: readonly TaskKey[],
  deviceEnds: readonly TaskKey[],
): NetworkMilestone[] {
  const kindById = new Map<string, FurnishingKind>(furnishings.map(({ id, kind }) => [id, kind]))
  const setOf = (isKind: (kind: FurnishingKind) => boolean): TaskKey[] =>
    tasks
      .filter((task) => task.kind === 'set' && task.furnishingId !== null)
      .filter((task) => isKind(kindById.get(task.furnishingId!)!))
      .map((task) => task.key)
  const aligned = tasks.filter((task) => task.key.startsWith('set/align-rows/')).map((task) => task.key)
  const keys: Readonly<Record<Milestone, readonly TaskKey[]>> = {
    'floor-clear': tasks.some(({ kind }) => kind === 'strike' || kind === 'park')
      ? [...new Set(struckEnds)].filter((key) => !startKeys.includes(key))
      : [],
    'tables-up': setOf(isTable),
    'seats-up': [...setOf(isChair), ...aligned],
    'devices-ready': deviceEnds,
    'sound-checked': tasks.filter((task) => task.kind === 'sound-check').map((task) => task.key),
  }
  const inOrder: readonly Milestone[] = [
    'floor-clear',
    'tables-up',
    'seats-up',
    'devices-ready',
    'sound-checked',
  ]
  return inOrder.flatMap((milestone) =>
    keys[milestone].length > 0 ? [{ milestone, taskKeys: [...keys[milestone]] }] : [],
  )
}
