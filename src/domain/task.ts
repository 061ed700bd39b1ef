/** One piece of the work of a turn, before anybody is chosen for it. */
import { z } from 'zod'
import { EquipmentId, FurnishingId } from './ids.ts'
import { Skill } from './units.ts'

export const TaskKind = z.enum([
  'briefing',
  'walkthrough',
  'strike',
  'clean',
  'dry',
  'set',
  'switch',
  'sign-off',
])
export type TaskKind = z.infer<typeof TaskKind>

export const TaskKey = z.string().min(1).max(200)
export type TaskKey = z.infer<typeof TaskKey>

/** So many hands do it in so many seconds. 0 hands: it runs by itself. */
export const TaskMode = z.object({ hands: z.int().min(0).max(100), seconds: z.int().min(0).max(604_800) })
export type TaskMode = z.infer<typeof TaskMode>

export const Task = z.object({
  key: TaskKey.meta({ description: 'Stable name within the turn' }),
  kind: TaskKind,
  zone: z.int().min(1).nullable().meta({ description: 'Strip of the floor, from 1; null: the whole room' }),
  text: z.string().min(1).max(400).meta({ description: 'What to do, in words a volunteer understands' }),
  count: z.int().min(1).nullable().meta({ description: 'Pieces, where it is about pieces' }),
  furnishingId: FurnishingId.nullable(),
  equipmentId: EquipmentId.nullable(),
  fromPlace: z.string().nullable(),
  toPlace: z.string().nullable(),
  workPersonSeconds: z
    .number()
    .min(0)
    .meta({ description: 'With pace and allowance; 0 for what runs by itself' }),
  modes: z.array(TaskMode).min(1).max(100).meta({ description: 'Ways to do it, fewest hands first' }),
  skill: Skill.nullable().meta({ description: 'At least one of the hands must have it' }),
  adultsOnly: z.boolean(),
  uses: z.array(z.object({ resource: z.string(), amount: z.int().min(1) })).max(20),
  after: z.array(TaskKey).meta({ description: 'Tasks that must be done first' }),
  safetyNotes: z.array(z.string()).max(20),
})
export type Task = z.infer<typeof Task>

/** Things that limit how much goes on at once: trolleys of a kind. */
export const TaskResource = z.object({ key: z.string(), label: z.string(), capacity: z.int().min(0) })
export type TaskResource = z.infer<typeof TaskResource>

export const TaskNetwork = z.object({ tasks: z.array(Task), resources: z.array(TaskResource) })
export type TaskNetwork = z.infer<typeof TaskNetwork>
