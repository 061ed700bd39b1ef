/** A kind of movable piece, with how many the site owns and how it is handled. */
import { z } from 'zod'
import { FurnishingId, SiteId, StoragePlaceId } from './ids.ts'
import { Hands, Kilograms, Name, PersonSeconds, PieceCount } from './units.ts'

/** Decides the order of strike and set, and the default rates. */
export const FurnishingKind = z.enum([
  'stacking-chair',
  'folding-chair',
  'round-table',
  'long-table',
  'stage-deck',
  'post-pair',
  'games-table',
  'table-cloth',
  'other',
])
export type FurnishingKind = z.infer<typeof FurnishingKind>

export const HandlingMethod = z.enum(['carry', 'roll', 'slide', 'trolley'])
export type HandlingMethod = z.infer<typeof HandlingMethod>

export const Furnishing = z.object({
  id: FurnishingId,
  siteId: SiteId,
  name: Name,
  namePlural: Name,
  kind: FurnishingKind,
  countOwned: PieceCount,
  massKilograms: Kilograms,
  storagePlaceId: StoragePlaceId.meta({ description: 'Where the pieces live when they are not out' }),
  method: HandlingMethod,
  handsPerPiece: Hands.max(8).meta({ description: 'How many must handle one piece together' }),
  setPersonSeconds: PersonSeconds.nullable().meta({
    description: 'Per piece, practised crew; null: the default for its kind',
  }),
  strikePersonSeconds: PersonSeconds.nullable().meta({
    description: 'Per piece, practised crew; null: the default for its kind',
  }),
  trolley: z
    .object({ capacityPieces: PieceCount, countOwned: PieceCount })
    .nullable()
    .meta({ description: 'The trolleys for this kind; null: none' }),
})
export type Furnishing = z.infer<typeof Furnishing>
