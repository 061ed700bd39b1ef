/** One property with one stock, one crew and one time zone: the unit of consistency. */
import { z } from 'zod'
import { SiteId } from './ids.ts'
import { Name } from './units.ts'

export const Site = z.object({
  id: SiteId,
  name: Name,
  zone: z
    .string()
    .min(1)
    .max(60)
    .meta({ description: 'IANA time zone', examples: ['America/Chicago'] }),
})
export type Site = z.infer<typeof Site>
