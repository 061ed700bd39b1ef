/** A time when sections cannot be used, and nobody can work in them. */
import { z } from 'zod'
import { ClosureId, SectionId, SiteId } from './ids.ts'
import { Instant } from './instant.ts'

export const Closure = z.object({
  id: ClosureId,
  siteId: SiteId,
  sectionIds: z.array(SectionId).min(1).max(20),
  fromAt: Instant,
  toAt: Instant,
  reason: z.string().trim().min(1).max(200),
})
export type Closure = z.infer<typeof Closure>
