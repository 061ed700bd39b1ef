/** A way out of the building from a section, with the width people can pass in. */
import { z } from 'zod'
import { FloorPoint } from './floor.ts'
import { ExitId, SectionId, SiteId } from './ids.ts'
import { Name } from './units.ts'

export const Exit = z.object({
  id: ExitId,
  siteId: SiteId,
  name: Name,
  sectionId: SectionId,
  clearWidthMetres: z
    .number()
    .min(0.3)
    .max(20)
    .meta({ description: 'With the door open, between what stands in the way' }),
  wallMetres: z
    .number()
    .positive()
    .max(500)
    .nullable()
    .default(null)
    .meta({ description: 'Length of the wall it is in; null: unknown' }),
  opensOutward: z.boolean().nullable().default(null).meta({ description: 'null: unknown' }),
  panicHardware: z.boolean().nullable().default(null).meta({ description: 'null: unknown' }),
  stepFree: z.boolean().nullable().default(null).meta({ description: 'null: unknown' }),
  position: FloorPoint.nullable()
    .default(null)
    .meta({ description: 'On the floor of the rooms over its section; null: unknown' }),
})
export type Exit = z.infer<typeof Exit>
