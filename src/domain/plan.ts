/** The witness that a room can be turned: each task with its hands and its times. */
import { z } from 'zod'
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

export const Plan = z.object({
  tasks: z.array(PlannedTask).meta({ description: 'By start, then by key' }),
  resources: z.array(TaskResource),
  startsAt: Instant,
  readyAt: Instant,
  criticalTaskKeys: z
    .array(TaskKey)
    .meta({ description: 'A chain of tasks that decides when it is ready, in order' }),
  solverVersion: z.string(),
  workDone: z.int().min(0).meta({ description: 'Schedules generated to find it' }),
})
export type Plan = z.infer<typeof Plan>
