/** The usual cautions of the trade, printed with the task they belong to. Common practice, no source, unless it says. */
import type { Furnishing, FurnishingKind } from '../../domain/furnishing.ts'
import { handlingNotes } from './handling-notes.ts'
import { carryNotes, kilogramsEach, massNotes } from './lifting-notes.ts'
import type { NetworkInput } from './network-input.ts'
import type { StoreWay } from './travel.ts'

export { MAKERS_INSTRUCTIONS } from './handling-notes.ts'

export const LOOK_AT_THE_PATH = 'Look at the whole path before you push a trolley.'
export const WET_FLOOR = 'Put up wet-floor signs and leave them until the floor is dry.'
export const EXITS_CLEAR = 'Keep every exit, aisle and fire-alarm pull station clear.'
export const QUALIFIED_ONLY =
  'Leave ladders, anything hung overhead and mains electrics to qualified people. When in doubt, stop and ask.'
export const LIMIT_DECIDES =
  'The posted occupant limit and the local fire and building code decide, not this list.'
export const GLOVES_FOR_BINS = 'Wear gloves; look before you reach into a bin.'
export const NO_SUDDEN_SOUND = 'Start low and say when it gets loud.'
export const LIGHT_TO_WALK_BY = 'Exit signs stay lit; nobody walks about in the dark.'

/** Building a stage is left to adults. */
const isForAdultsByKind = (kind: FurnishingKind): boolean => kind === 'stage-deck' || kind === 'stage-rail'

/**
 * As the furnishing says or as is usual for its kind, and whatever is heavier for each who handles it than minors may
 * lift.
 * @param atOnce  what is carried at a time where no trolley is used
 */
export const isForAdultsOnly = (
  furnishing: Furnishing,
  { policy }: Pick<NetworkInput, 'policy'>,
  atOnce = 1,
): boolean =>
  (furnishing.adultsOnly ?? isForAdultsByKind(furnishing.kind)) ||
  kilogramsEach(furnishing, atOnce) > policy.minorMassLimitKilograms

/**
 * How many pieces somebody has in hand at a time: one, off a trolley or within the room, else what is carried at once.
 * @param way    null: they stay in the room
 * @param count  1 or more: how many there are to move
 */
export const piecesAtOnce = (way: StoreWay | null, count: number): number =>
  way === null || way.byTrolley ? 1 : Math.max(1, Math.min(count, way.piecesPerLoad))

/**
 * For handling pieces, what their mass adds, and, with `way`, what the way between room and store adds.
 * @param way     null: they stay in the room
 * @param atOnce  how many somebody has in hand at a time
 */
export function pieceNotes(
  furnishing: Furnishing,
  way: StoreWay | null,
  input: Pick<NetworkInput, 'policy' | 'units'>,
  atOnce: number,
): string[] {
  const notes = handlingNotes(furnishing, isForAdultsOnly(furnishing, input, atOnce))
  if (way?.byTrolley) notes.push(LOOK_AT_THE_PATH)
  notes.push(...massNotes(furnishing, atOnce, input.policy, input.units))
  if (way && !way.byTrolley) notes.push(...carryNotes(furnishing, way, input.units))
  return notes
}
