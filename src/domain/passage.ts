/** A doorway, lift or corridor between stores and rooms: so many trolleys at a time, the others wait. */
import { z } from 'zod'
import { PassageId, SiteId } from './ids.ts'
import { Kilograms, Name } from './units.ts'

export const PassageKind = z.enum(['doorway', 'corridor', 'ramp', 'lift', 'stairs'])
export type PassageKind = z.infer<typeof PassageKind>

export const Passage = z.object({
  id: PassageId,
  siteId: SiteId,
  name: Name,
  kind: PassageKind.meta({ description: 'No trolley goes by stairs: pieces are carried' }),
  trolleysAtOnce: z
    .int()
    .min(1)
    .max(20)
    .default(1)
    .meta({ description: 'Trolleys, or people who carry, that can pass at the same time' }),
  clearWidthMetres: z.number().min(0.3).max(20).nullable().default(null),
  rideSeconds: z.int().min(0).max(1_800).default(0).meta({
    description: 'Of a lift, one way, doors included; 0 for what one walks through',
  }),
  loadLimitKilograms: Kilograms.max(20_000).nullable().default(null),
})
export type Passage = z.infer<typeof Passage>
