/** How a site wants to be planned. One is in force; a new one takes its place. */
import { z } from 'zod'
import { PolicyId, SiteId } from './ids.ts'
import { LayoutKind } from './layout.ts'
import { SpanSeconds } from './units.ts'

export const CleaningMethod = z.enum(['dust-mop', 'sweep', 'vacuum', 'spot-mop', 'wet-mop'])
export type CleaningMethod = z.infer<typeof CleaningMethod>

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
  workMost: z.int().min(1).max(100_000).meta({ description: 'Schedules a decision may try for one turn' }),
})
export type Policy = z.infer<typeof Policy>
