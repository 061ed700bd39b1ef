/**
 * A device or system and the conditions it can be in. Either it has named states with timed transitions between
 * them, or a level with a range; a device whose lowest stable level is 10 % can be off or 10 to 100 %, never 3 %.
 */
import { z } from 'zod'
import { EquipmentId, SectionId, SiteId } from './ids.ts'
import { Hands, Name, Skill, WorkSeconds } from './units.ts'

export const StateName = z
  .string()
  .regex(/^[a-z0-9][a-z0-9-]{0,39}$/, { error: 'expected lower-case letters, digits and hyphens' })
export type StateName = z.infer<typeof StateName>

/** What a layout asks of a device. */
export const EquipmentSetting = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('state'), state: StateName }),
  z.object({ kind: z.literal('off') }),
  z.object({ kind: z.literal('level'), levelPercent: z.number().positive().max(100) }),
])
export type EquipmentSetting = z.infer<typeof EquipmentSetting>

export const Transition = z.object({
  from: StateName,
  to: StateName,
  seconds: WorkSeconds,
  hands: z.int().min(0).max(20).meta({ description: '0: it runs by itself' }),
  skill: Skill.nullable(),
  needsFloorClear: z.boolean(),
})
export type Transition = z.infer<typeof Transition>

export const StatesControl = z.object({
  kind: z.literal('states'),
  states: z.array(StateName).min(1).max(40),
  homeState: StateName,
  transitions: z.array(Transition).max(400),
})
export type StatesControl = z.infer<typeof StatesControl>

export const LevelControl = z.object({
  kind: z.literal('level'),
  lowestPercent: z
    .number()
    .positive()
    .max(100)
    .meta({ description: 'The lowest level it holds; below is a dead band' }),
  highestPercent: z.number().positive().max(100),
  canBeOff: z.boolean(),
  homeSetting: z.discriminatedUnion('kind', [
    z.object({ kind: z.literal('off') }),
    z.object({ kind: z.literal('level'), levelPercent: z.number().positive().max(100) }),
  ]),
  setSeconds: WorkSeconds,
  hands: Hands.max(20),
  skill: Skill.nullable(),
})
export type LevelControl = z.infer<typeof LevelControl>

export const Equipment = z.object({
  id: EquipmentId,
  siteId: SiteId,
  name: Name,
  sectionIds: z
    .array(SectionId)
    .min(1)
    .max(20)
    .meta({ description: 'Where it is; rooms over these sections use it' }),
  control: z.discriminatedUnion('kind', [StatesControl, LevelControl]),
})
export type Equipment = z.infer<typeof Equipment>
