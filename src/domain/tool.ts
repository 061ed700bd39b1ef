/** Something the work is done with, and how many the site owns: mops, vacuum cleaners, deck lifters. */
import { z } from 'zod'
import { CleaningMethod } from './cleaning-method.ts'
import { FurnishingId, SiteId, ToolId } from './ids.ts'
import { Name } from './units.ts'

export const Tool = z.object({
  id: ToolId,
  siteId: SiteId,
  name: Name,
  namePlural: Name,
  countOwned: z.int().min(1).max(500),
  cleaningMethods: z
    .array(CleaningMethod)
    .max(5)
    .default([])
    .meta({ description: 'Each cleaner who works in one of these ways holds one' }),
  furnishingIds: z
    .array(FurnishingId)
    .max(100)
    .default([])
    .meta({ description: 'Each team that sets up or takes down one of these holds one' }),
})
export type Tool = z.infer<typeof Tool>
