/** How a site wants to be planned. One is in force; a new one takes its place. */
import { z } from 'zod'
import { CleaningMethod } from './cleaning-method.ts'
import { PolicyId, SiteId } from './ids.ts'
import { LayoutKind } from './layout-kind.ts'
import { Kilograms, Skill, SpanSeconds } from './units.ts'

export const Policy = z.object({
  id: PolicyId,
  siteId: SiteId,
  boundaries: z
    .record(LayoutKind, z.object({ doorsBeforeStartSeconds: SpanSeconds, clearAfterEndSeconds: SpanSeconds }))
    .meta({ description: 'Default doors and clear of a booking by kind of layout' }),
  paceFactor: z
    .number()
    .min(0.2)
    .max(5)
    .meta({ description: 'Work of this crew over that of a practised one' }),
  allowanceShare: z
    .number()
    .min(0)
    .max(1)
    .meta({ description: 'Personal, fatigue and delay, as a share of the work' }),
  effectiveHands: z
    .array(z.object({ hands: z.int().min(1).max(100), effective: z.number().positive().max(100) }))
    .min(1)
    .max(40)
    .meta({ description: 'What several hands on one task are worth; straight lines between, level beyond' }),
  briefingSeconds: SpanSeconds,
  slackWantedSeconds: SpanSeconds.meta({ description: 'Less time to spare before doors is tight' }),
  walkBetweenRoomsSeconds: SpanSeconds,
  zoneSquareMetres: z.number().min(10).max(10_000),
  cleaning: z
    .record(LayoutKind, z.array(CleaningMethod).max(5))
    .meta({ description: 'What the floor needs after each kind of use' }),
  minorMassLimitKilograms: Kilograms.default(10).meta({
    description: 'Minors lift no piece heavier than this, shared among those who lift it',
  }),
  adultOnlySkills: z
    .array(Skill)
    .max(40)
    .default(['lift-operator', 'rigging', 'electrics', 'ladder-work'])
    .meta({ description: 'Skills that no minor may have' }),
  binsPerHundredGuests: z.number().min(0).max(50).default(4).meta({
    description: 'Bins to empty and reline after a booking, by its headcount; 0: not part of a turn',
  }),
  planningHands: z.int().min(0).max(12).default(0).meta({
    description: 'Hands a plan may count on that nobody has promised; such a verdict is tight at best',
  }),
  paidPersonSecondsMost: z.int().min(0).max(1_000_000).nullable().default(null).meta({
    description: 'Paid time one turn may take, all hands together; null: no cap',
  }),
  justInTimeFromGapSeconds: SpanSeconds.nullable().default(null).meta({
    description:
      'Gaps as long as this are turned as late as the time to spare allows, shorter ones at once; null: all at once',
  }),
  returnHomeAfterSeconds: SpanSeconds.nullable().default(null).meta({
    description:
      'A room that nobody needs for so long is put back into its home layout, in the first half of that time; null: never',
  }),
  replanTurnsMost: z.int().min(0).max(24).default(24).meta({
    description: 'Neighbouring turns that may be planned anew together to make room for a request',
  }),
  workMost: z.int().min(1).max(100_000).meta({ description: 'Schedules a decision may try for one turn' }),
})
export type Policy = z.infer<typeof Policy>
