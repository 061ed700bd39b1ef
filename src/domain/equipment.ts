/**
 * A device or system and the conditions it can be in. Either it has named states with timed transitions between
 * them, or a level with a range; a device whose lowest stable level is 10 % can be off or 10 to 100 %, never 3 %.
 */
import { z } from 'zod'
import { EquipmentId, SectionId, SiteId } from './ids.ts'
import { LayoutKind } from './layout-kind.ts'
import { Hands, Name, Skill, TextLine, WorkSeconds } from './units.ts'

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
  needsQuiet: z
    .boolean()
    .default(false)
    .meta({ description: 'No noise here or in rooms that hear this one' }),
  needsDark: z.boolean().default(false).meta({ description: 'No work that needs light meanwhile' }),
  needsWallOpen: z.boolean().default(false).meta({ description: 'After a movable wall of the room is open' }),
  needsGuestsOut: z.boolean().default(true).meta({
    description: 'Not while guests are in; a turn lies between clear and doors, so there it always holds',
  }),
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

/** What a device is, as far as planning cares. */
export const EquipmentKind = z.enum([
  'sound',
  'lighting',
  'projection',
  'screen',
  'movable-wall',
  'heating-or-cooling',
  'ventilation',
  'lift',
  'other',
])
export type EquipmentKind = z.infer<typeof EquipmentKind>

/** A use that can damage a device, and the condition in which it cannot. */
export const Protection = z.object({
  during: z.array(LayoutKind).min(1).max(6),
  setting: EquipmentSetting,
})
export type Protection = z.infer<typeof Protection>

/** What is tried out once the device is as the layout asks, unless that is its home condition. */
export const ReadinessCheck = z.object({
  what: TextLine(60).meta({ examples: ['sound check', 'line check', 'focus'] }),
  seconds: WorkSeconds,
  hands: Hands.max(20),
  skill: Skill.nullable().default(null),
  needsQuiet: z.boolean().default(false),
  needsDark: z.boolean().default(false),
})
export type ReadinessCheck = z.infer<typeof ReadinessCheck>

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
  kind: EquipmentKind.default('other'),
  protections: z.array(Protection).max(10).default([]),
  standInIds: z
    .array(EquipmentId)
    .max(20)
    .default([])
    .meta({ description: 'Devices that can do its work when it is out of service, best first' }),
  readinessCheck: ReadinessCheck.nullable().default(null),
  warmUpSeconds: WorkSeconds.default(0).meta({
    description: 'From the last step until it serves, when it was off or at home before; nobody has to stay',
  }),
  restrikeSeconds: WorkSeconds.default(0).meta({
    description: 'A discharge lamp that went off cannot be lit again before; 0: it can',
  }),
})
export type Equipment = z.infer<typeof Equipment>
