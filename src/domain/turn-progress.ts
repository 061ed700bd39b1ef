/** How far a turn has come, as those who do it tell: what is done, what runs, who is missing, what really stands. */
import { z } from 'zod'
import { EquipmentSetting } from './equipment.ts'
import { EquipmentId, FurnishingId, LaneId, PersonId } from './ids.ts'
import { Instant } from './instant.ts'
import { TaskKey } from './task.ts'
import { PieceCount, Skill, WorkSeconds } from './units.ts'

export const RunningTask = z.object({
  taskKey: TaskKey,
  laneIds: z
    .array(LaneId)
    .max(100)
    .nullable()
    .default(null)
    .meta({ description: 'Who is at it; null: those the plan has for it' }),
  secondsLeft: WorkSeconds,
})
export type RunningTask = z.infer<typeof RunningTask>

export const StandsNow = z.object({
  pieces: z
    .array(
      z.object({
        furnishingId: FurnishingId,
        count: PieceCount,
        inPlace: z
          .int()
          .min(0)
          .max(5_000)
          .nullable()
          .default(null)
          .meta({ description: 'Of these, where they are wanted; null: as many as the tasks done have set' }),
        strayByZone: z
          .array(z.object({ zone: z.int().min(1).max(12), count: PieceCount }))
          .max(12)
          .nullable()
          .default(null)
          .meta({
            description:
              'Where those stand that are not in place, by zone as the tasks number them; null: where the tasks that are left take pieces from',
          }),
      }),
    )
    .max(100)
    .meta({
      description:
        'Everything that stands in the room; what is being carried counts where it goes. None: the bare floor',
    }),
  equipment: z
    .array(z.object({ equipmentId: EquipmentId, setting: EquipmentSetting }))
    .max(100)
    .default([])
    .meta({ description: 'Devices that are not as the tasks done have left them' }),
})
export type StandsNow = z.infer<typeof StandsNow>

export const TurnProgress = z.object({
  done: z.array(z.object({ taskKey: TaskKey, doneAt: Instant.nullable().default(null) })).max(500),
  running: z.array(RunningTask).max(100),
  missing: z
    .array(
      z.object({
        laneId: LaneId,
        fromAt: Instant.nullable().default(null).meta({ description: 'null: from now on' }),
        toAt: Instant.nullable().default(null).meta({ description: 'null: for good' }),
      }),
    )
    .max(100),
  added: z
    .array(
      z.object({
        personId: PersonId.nullable().default(null).meta({ description: 'null: somebody who is not listed' }),
        adult: z.boolean().default(true).meta({ description: 'Of somebody who is not listed' }),
        skills: z.array(Skill).max(20).default([]).meta({ description: 'Of somebody who is not listed' }),
        fromAt: Instant.nullable().default(null).meta({ description: 'null: from now on' }),
        toAt: Instant.nullable().default(null).meta({ description: 'null: until the end' }),
      }),
    )
    .max(40),
  stands: StandsNow.nullable().meta({ description: 'null: as the tasks done have left it' }),
})
export type TurnProgress = z.infer<typeof TurnProgress>
