/** One piece of the work of a turn, before anybody is chosen for it. */
import { z } from 'zod'
import { EquipmentId, FurnishingId } from './ids.ts'
import { TaskMode } from './task-mode.ts'
import { Skill } from './units.ts'

/** The last two are not work of the turn: crew at the event itself, and an event that must not be disturbed. */
export const TaskKind = z.enum([
  'briefing',
  'walkthrough',
  'bus',
  'linen-off',
  'restack',
  'strike',
  'park',
  'clean',
  'dry',
  'mark-out',
  'set',
  'linen-on',
  'settings',
  'bins',
  'switch',
  'warm-up',
  'sound-check',
  'sign-off',
  'duty',
  'event',
])
export type TaskKind = z.infer<typeof TaskKind>

/** What a caterer, a band or a coordinator may wait for before doors. */
export const Milestone = z.enum(['floor-clear', 'tables-up', 'seats-up', 'devices-ready', 'sound-checked'])
export type Milestone = z.infer<typeof Milestone>

export const TaskKey = z.string().min(1).max(200)
export type TaskKey = z.infer<typeof TaskKey>

/** What a task holds of a resource from start to end. */
export const TaskUse = z.object({
  resource: z.string(),
  amount: z.int().min(1),
  perHand: z.boolean().optional().meta({ description: 'true: so much for each of the hands' }),
})
export type TaskUse = z.infer<typeof TaskUse>

/** @param hands  at work on the task */
export const amountUsed = ({ amount, perHand }: TaskUse, hands: number): number =>
  perHand === true ? amount * hands : amount

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
  uses: z.array(TaskUse).max(40),
  after: z.array(TaskKey).meta({ description: 'Tasks that must be done first' }),
  safetyNotes: z.array(z.string()).max(20),
  optional: z.boolean().optional().meta({
    description: 'true: the room can be used without it, where time is short; left out: it must be done',
  }),
})
export type Task = z.infer<typeof Task>

/**
 * Things that limit how much goes on at once: `trolley:` of a furnishing, `tool:`, `passage:`, and `quiet:` and
 * `dark:` of a room, which noisy work and work that needs light hold a part of, and what needs them holds whole.
 */
export const TaskResource = z.object({ key: z.string(), label: z.string(), capacity: z.int().min(0) })
export type TaskResource = z.infer<typeof TaskResource>

/** The tasks after which a milestone is reached; a milestone that this turn does not touch is left out. */
export const NetworkMilestone = z.object({ milestone: Milestone, taskKeys: z.array(TaskKey).min(1) })
export type NetworkMilestone = z.infer<typeof NetworkMilestone>

export const TaskNetwork = z.object({
  tasks: z.array(Task),
  resources: z.array(TaskResource),
  milestones: z.array(NetworkMilestone),
})
export type TaskNetwork = z.infer<typeof TaskNetwork>
