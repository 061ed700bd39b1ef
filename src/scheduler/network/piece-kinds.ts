/** What kinds of pieces have in common. */
import type { FurnishingKind } from '../../domain/furnishing.ts'

export const isTable = (kind: FurnishingKind): boolean => kind === 'round-table' || kind === 'long-table'

export const isChair = (kind: FurnishingKind): boolean =>
  kind === 'stacking-chair' || kind === 'folding-chair'

/** Each has a mark of its own; chairs of rows have one for each row. */
export const isMarked = (kind: FurnishingKind): boolean =>
  isTable(kind) || kind === 'stage-deck' || kind === 'post-pair' || kind === 'games-table'

/** Cloths and settings lie on tables: nobody cleans around them. */
export const standsOnFloor = (kind: FurnishingKind): boolean =>
  kind !== 'table-cloth' && kind !== 'place-setting'
