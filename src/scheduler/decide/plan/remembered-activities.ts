/**
 * The activities of a turn that is planned by itself, remembered beside its network: they follow from the network and
 * from who may do what, so finding them here or making them anew gives the same. What the solver lays out of them is
 * remembered by the list, and found again with it.
 */
import type { TaskNetwork } from '../../../domain/task.ts'
import type { Activity } from '../../turn/index.ts'

const remembered = new WeakMap<TaskNetwork, Map<string, readonly Activity[]>>()
/** For each network; when there are more, it begins anew. */
const REMEMBERED_MOST = 20

/**
 * @param network  of which nothing is closed for a time, and that has no milestones to reach and no events behind it
 * @param skills   in order of their bits
 * @param helpers  asked of hands at what a group may help with
 */
export function rememberedActivities(
  network: TaskNetwork,
  skills: readonly string[],
  helpers: readonly string[],
  make: () => readonly Activity[],
): readonly Activity[] {
  const lists = remembered.get(network) ?? new Map<string, readonly Activity[]>()
  const key = JSON.stringify([skills, helpers])
  const known = lists.get(key)
  if (known) return known
  if (lists.size >= REMEMBERED_MOST) lists.clear()
  const made = make()
  lists.set(key, made)
  remembered.set(network, lists)
  return made
}
