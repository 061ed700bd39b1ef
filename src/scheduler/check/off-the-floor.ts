import type { FurnishingKind } from '../../domain/furnishing.ts'

/** They lie or stand on something else. */
export const notOnTheFloor: ReadonlySet<FurnishingKind> = new Set([
  'table-cloth',
  'place-setting',
  'stage-rail',
])
