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
  'place-setting',
  'stage-rail',
  'dance-floor-panel',
  'other',
])
export type FurnishingKind = z.infer<typeof FurnishingKind>

export const HandlingMethod = z.enum(['carry', 'roll', 'slide', 'trolley'])
export type HandlingMethod = z.infer<typeof HandlingMethod>

/** How well hands hold it: the classes of the revised NIOSH lifting equation. */
export const LiftCoupling = z.enum(['good', 'fair', 'poor'])

/** Where the hands are when one piece is lifted, for the lifting index (revised NIOSH lifting equation). */
export const LiftGeometry = z.object({
  horizontalCentimetres: z.number().min(10).max(100).meta({ description: 'Ankles to hands' }),
  originHeightCentimetres: z
    .number()
    .min(0)
    .max(220)
    .meta({ description: 'Hands above the floor at the start' }),
  destinationHeightCentimetres: z.number().min(0).max(220),
  asymmetryDegrees: z.number().min(0).max(180).default(0),
  coupling: LiftCoupling,
  liftsPerMinute: z.number().min(0).max(30).default(1),
})
export type LiftGeometry = z.infer<typeof LiftGeometry>

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
  widthMetres: z.number().positive().max(30).nullable().default(null),
  depthMetres: z.number().positive().max(30).nullable().default(null).meta({
    description: 'As it stands when set up; of a round piece both are the diameter',
  }),
  storedAreaSquareMetres: z.number().positive().max(50).nullable().default(null).meta({
    description: 'Floor one piece takes in a store, its share of a stack; null: the default for its kind',
  }),
  seatsPerPiece: z
    .int()
    .min(0)
    .max(50)
    .nullable()
    .default(null)
    .meta({ description: 'Seats a piece gives by itself, or places at a table; null: unknown' }),
  lift: LiftGeometry.nullable().default(null).meta({ description: 'null: no lifting index is computed' }),
  adultsOnly: z
    .boolean()
    .nullable()
    .default(null)
    .meta({ description: 'null: as usual for its kind; building a stage is left to adults' }),
})
export type Furnishing = z.infer<typeof Furnishing>
