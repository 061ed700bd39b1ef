/** A part of the floor that is booked as one. A divisible room is several sections. */
import { z } from 'zod'
import { SectionId, SiteId } from './ids.ts'
import { Name, SquareMetres } from './units.ts'

export const FloorKind = z.enum(['sealed-wood', 'vinyl', 'tile', 'concrete', 'carpet'])
export type FloorKind = z.infer<typeof FloorKind>

export const Section = z.object({
  id: SectionId,
  siteId: SiteId,
  name: Name,
  areaSquareMetres: SquareMetres,
  floorKind: FloorKind,
})
export type Section = z.infer<typeof Section>
