/** The witness that a room can be turned: each task with its hands and its times. */
import { z } from 'zod'
import { ChainLink } from './chain-link.ts'
import { LaneId } from './ids.ts'
import { Instant } from './instant.ts'
import { Task, TaskKey, TaskResource } from './task.ts'

export const PlannedTask = Task.extend({
  hands: z.int().min(0),
  laneIds: z.array(LaneId).meta({ description: 'One for each hand; held from start to end' }),
  startsAt: Instant,
  endsAt: Instant,
})
export type PlannedTask = z.infer<typeof PlannedTask>

/** How easily people follow it. */
export const Smoothness = z.object({
  changes: z.int().min(0).meta({
    description: 'How often somebody goes on to another task: to other work, or the same on other pieces',
  }),
  zoneChanges: z
    .int()
    .min(0)
    .default(0)
    .meta({ description: 'How often somebody goes on with the same work in another zone' }),
  stintsMost: z
    .int()
    .min(0)
    .meta({ description: 'The most tasks of one person: stretches of the same work on the same pieces' }),
  partings: z.int().min(0).meta({ description: 'How often two who worked together are parted' }),
  priceSeconds: z.int().min(0).nullable().meta({
    description:
      'How much earlier the quickest plan found would be ready; null: nobody has looked for an easier one',
  }),
})
export type Smoothness = z.infer<typeof Smoothness>

export const Plan = z.object({
  tasks: z.array(PlannedTask).meta({ description: 'By start, then by key' }),
  resources: z.array(TaskResource),
  startsAt: Instant,
  readyAt: Instant,
  criticalTaskKeys: z
    .array(TaskKey)
    .meta({ description: 'A chain of tasks that decides when it is ready, in order' }),
  chain: z
    .array(ChainLink)
    .default([])
    .meta({ description: 'The same chain, each task with what its start waited for' }),
  smoothness: Smoothness.nullable().default(null).meta({ description: 'null: made before it was counted' }),
  solverVersion: z.string(),
  workDone: z.int().min(0).meta({ description: 'Schedules generated to find it' }),
})
export type Plan = z.infer<typeof Plan>
