/** For a time the site has fewer of something, because it is out of service or lent out, or more, because it is borrowed. */
import { z } from 'zod'
import { EquipmentId, FurnishingId, SiteId, StockChangeId, ToolId } from './ids.ts'
import { Instant } from './instant.ts'
import { PieceCount, TextLine } from './units.ts'

export const StockChangeOf = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('furnishing'), furnishingId: FurnishingId, count: PieceCount }),
  z.object({ kind: z.literal('equipment'), equipmentId: EquipmentId }),
  z.object({ kind: z.literal('tool'), toolId: ToolId, count: PieceCount }),
])
export type StockChangeOf = z.infer<typeof StockChangeOf>

export const StockChange = z.object({
  id: StockChangeId,
  siteId: SiteId,
  of: StockChangeOf,
  why: z.enum(['out-of-service', 'lent-out', 'borrowed']),
  fromAt: Instant,
  toAt: Instant.nullable().meta({ description: 'null: until further notice' }),
  note: TextLine(400).nullable().default(null),
})
export type StockChange = z.infer<typeof StockChange>
