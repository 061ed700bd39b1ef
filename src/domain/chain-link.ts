/** A task of the chain that decides when a room is ready, with what its start waited for. */
import { z } from 'zod'
import { LaneId } from './ids.ts'
import { TaskKey } from './task.ts'
import { Skill } from './units.ts'

export const ChainLink = z.object({
  taskKey: TaskKey,
  binds: z.discriminatedUnion('kind', [
    z.object({ kind: z.literal('release') }),
    z.object({ kind: z.literal('after'), taskKey: TaskKey }),
    z.object({ kind: z.literal('hands'), laneId: LaneId, taskKey: TaskKey }),
    z.object({ kind: z.literal('held-elsewhere'), laneId: LaneId }),
    z.object({ kind: z.literal('duty-begins'), laneId: LaneId }),
    z.object({
      kind: z.literal('resource'),
      key: z.string(),
      label: z.string(),
      taskKey: TaskKey.nullable(),
    }),
    z.object({ kind: z.literal('skill'), skill: Skill.or(z.literal('adult')), taskKey: TaskKey.nullable() }),
    z.object({ kind: z.literal('nothing') }),
  ]),
})
export type ChainLink = z.infer<typeof ChainLink>
