/** One property with one stock, one crew and one time zone: the unit of consistency. */
import { z } from 'zod'
import { SiteId } from './ids.ts'
import { Name } from './units.ts'

/** What task lists and advice are written in. Fields always carry metric numbers. */
export const UnitSystem = z.enum(['metric', 'us'])
export type UnitSystem = z.infer<typeof UnitSystem>

/** Whose published tables the advice on occupancy, exits and access is taken from. */
export const CodeTables = z.enum(['us', 'uk'])
export type CodeTables = z.infer<typeof CodeTables>

export const Site = z.object({
  id: SiteId,
  name: Name,
  zone: z
    .string()
    .min(1)
    .max(60)
    .meta({ description: 'IANA time zone', examples: ['America/Chicago'] }),
  units: UnitSystem.default('metric').meta({ description: 'What task lists and advice are written in' }),
  codeTables: CodeTables.default('us').meta({
    description: 'Tables behind the advice on occupancy, exits and access',
  }),
})
export type Site = z.infer<typeof Site>
