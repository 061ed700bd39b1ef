import { z } from 'zod'

/** So many hands do it in so many seconds. 0 hands: it runs by itself. */
export const TaskMode = z.object({ hands: z.int().min(0).max(100), seconds: z.int().min(0).max(604_800) })
export type TaskMode = z.infer<typeof TaskMode>
