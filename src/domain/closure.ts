/** A time when sections, stores, passages or exits cannot be used. Nobody works in a closed section. */
import { z } from 'zod'
import { ClosureId, ExitId, PassageId, SectionId, SiteId, StoragePlaceId } from './ids.ts'
import { Instant } from './instant.ts'
import { TextLine } from './units.ts'

export const Closure = z.object({
  id: ClosureId,
  siteId: SiteId,
  sectionIds: z.array(SectionId).max(20),
  storagePlaceIds: z
    .array(StoragePlaceId)
    .max(50)
    .default([])
    .meta({ description: 'Nothing is fetched from there or put away there' }),
  passageIds: z.array(PassageId).max(50).default([]).meta({ description: 'Nothing is carried through' }),
  exitIds: z.array(ExitId).max(50).default([]).meta({ description: 'Does not count as a way out' }),
  fromAt: Instant,
  toAt: Instant,
  reason: TextLine(200),
})
export type Closure = z.infer<typeof Closure>
