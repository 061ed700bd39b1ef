/**
 * Quiet and dark as resources. A room has a large amount of quiet: noisy work takes one of it, in its own room and in
 * each room that hears it, and what needs quiet takes all of it. So they never meet, and any number of noisy tasks may.
 * Dark is the same for work that needs light. Only what matters is written down: nothing where no task needs quiet here
 * and no other room hears this one.
 */
import type { RoomId } from '../../domain/ids.ts'
import type { Task, TaskKey, TaskKind, TaskResource } from '../../domain/task.ts'
import type { NetworkInput } from './network-input.ts'

/** More than the hands that ever work in one room. */
const WHOLE = 1000

/** A task holds at most 40 things; trolley, passages and tools come first. No hall has so many joined rooms. */
const USES_MOST = 40

export const quietKey = (roomId: RoomId): string => `quiet:${roomId}`
export const darkKey = (roomId: RoomId): string => `dark:${roomId}`

/**
 * Work that is heard next door. Not in it: talking in a low voice, tape on the floor, cloths, a device that changes by
 * itself. Those may go on beside a sound check.
 */
const NOISY_KINDS: ReadonlySet<TaskKind> = new Set([
  'bus',
  'restack',
  'strike',
  'park',
  'clean',
  'set',
  'settings',
  'bins',
])

/** Everything that moves people or makes sound: an unattended wall or lift too, and a sound check for rooms next door. */
function isNoisy(task: Task, { equipmentFrom }: NetworkInput): boolean {
  if (NOISY_KINDS.has(task.kind)) return true
  if (task.kind !== 'switch' && task.kind !== 'sound-check') return false
  const kind = equipmentFrom.find(({ equipment }) => equipment.id === task.equipmentId)?.equipment.kind
  if (task.kind === 'sound-check') return kind === 'sound'
  return kind === 'movable-wall' || kind === 'lift' || task.modes[0]!.hands > 0
}

const needsLight = (task: Task): boolean => task.modes.some(({ hands }) => hands > 0)

/** Adds what each task takes of quiet and dark to its uses, and returns the resources there are then, by key. */
export function addQuietAndDark(
  input: NetworkInput,
  tasks: readonly Task[],
  needs: { readonly quietKeys: ReadonlySet<TaskKey>; readonly darkKeys: ReadonlySet<TaskKey> },
): TaskResource[] {
  const { room } = input
  const joined = [...input.acousticallyJoinedRoomIds].sort()
  const ownQuiet = needs.quietKeys.size > 0
  const resources = new Map<string, TaskResource>()
  const take = (task: Task, key: string, amount: number, label: string) => {
    if (task.uses.length >= USES_MOST) return
    task.uses.push({ resource: key, amount })
    resources.set(key, { key, label, capacity: WHOLE })
  }
  for (const task of tasks) {
    const needsQuiet = needs.quietKeys.has(task.key)
    const needsDark = needs.darkKeys.has(task.key)
    const noisy = (ownQuiet || joined.length > 0) && isNoisy(task, input)
    if (needsQuiet) take(task, quietKey(room.id), WHOLE, `Quiet in ${room.name}`)
    else if (noisy && ownQuiet) take(task, quietKey(room.id), 1, `Quiet in ${room.name}`)
    if (noisy)
      for (const roomId of joined) take(task, quietKey(roomId), 1, 'Quiet in a room that hears this one')
    if (needsDark) take(task, darkKey(room.id), WHOLE, `Dark in ${room.name}`)
    else if (needs.darkKeys.size > 0 && needsLight(task)) {
      take(task, darkKey(room.id), 1, `Dark in ${room.name}`)
    }
  }
  return [...resources.values()]
}
