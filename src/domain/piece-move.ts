/** Where one piece goes in a turn, for an arrow on a floor plan. */
import { z } from 'zod'
import { FurnishingId, StoragePlaceId } from './ids.ts'
import { Placement } from './layout.ts'

/** A piece that was eaten from counts as going to its store, also where it is washed elsewhere first. */
export const PieceMoveEnd = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('place'), ...Placement.omit({ furnishingId: true }).shape }),
  z.object({ kind: z.literal('store'), storagePlaceId: StoragePlaceId }),
])
export type PieceMoveEnd = z.infer<typeof PieceMoveEnd>

export const PieceMove = z.object({
  furnishingId: FurnishingId,
  from: PieceMoveEnd,
  to: PieceMoveEnd,
  parkedAt: z.string().nullable().meta({
    description: 'Where it waits in between, out of the way; null: it does not',
  }),
  metres: z.number().min(0).meta({
    description:
      'From place to place along the floor, 0 where a piece is only turned, and around by outside where fixed things are in between; with a store one way, by its route',
  }),
})
export type PieceMove = z.infer<typeof PieceMove>
