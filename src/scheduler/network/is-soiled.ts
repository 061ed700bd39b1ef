/** What a meal leaves dirty: it is not put back among the clean ones, and clean ones take its place. */
import type { Furnishing, FurnishingKind } from '../../domain/furnishing.ts'
import type { OutgoingUse } from './network-input.ts'

/** Where what is dirty goes, as it is said. */
const WASHED_IN = {
  'table-cloth': 'the laundry',
  'place-setting': 'the kitchen',
} as const satisfies Partial<Record<FurnishingKind, string>>
type WashedKind = keyof typeof WASHED_IN

const isWashed = (kind: FurnishingKind): kind is WashedKind => kind in WASHED_IN

/** Cloths and place settings that stood while food was served. */
export const isSoiled = ({ kind }: Furnishing, outgoing: OutgoingUse | null): boolean =>
  outgoing?.foodServed === true && isWashed(kind)

/** Of cloths and place settings; null: pieces of the kind are not washed. */
export const washedIn = ({ kind }: Furnishing): string | null => (isWashed(kind) ? WASHED_IN[kind] : null)
