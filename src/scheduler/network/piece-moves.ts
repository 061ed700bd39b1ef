/** Which pieces stay, move, go out and come in: by where each one stands where that is known, else by their numbers. */
import type { Furnishing, FurnishingKind } from '../../domain/furnishing.ts'
import type { FurnishingId } from '../../domain/ids.ts'
import type { Placement } from '../../domain/layout.ts'
import type { NetworkInput } from './network-input.ts'
import { notInItsPlace } from './placement-matching.ts'
import { type StoreWay, storeWay } from './travel.ts'

/** stays + moves + toStore = what stood; stays + moves + fromStore = what is wanted. */
export interface PieceMoves {
  readonly furnishing: Furnishing
  readonly way: StoreWay
  readonly stood: number
  readonly wanted: number
  readonly stays: number
  /** Out of the way, and set again. */
  readonly moves: number
  readonly toStore: number
  readonly fromStore: number
  /** Where each piece stands, in the order given; null: only how many there are is known. */
  readonly placesFrom: readonly Placement[] | null
  /** Where each piece is wanted. */
  readonly placesTo: readonly Placement[] | null
  /** Both are known: the pieces that do not stay. Which of them goes where follows zone by zone. */
  readonly displaced: { readonly from: readonly Placement[]; readonly to: readonly Placement[] } | null
}

/** Of the pieces both layouts need, where the kind of layout stays. Common practice, no source. */
const SHARE_MOVED_IN_SAME_KIND = 0.1

/** After a meal they are dirty: they go out, and clean ones come in. */
const isSoiledByFood = (kind: FurnishingKind): boolean => kind === 'place-setting' || kind === 'table-cloth'

/**
 * One entry for each furnishing that stands or is wanted, by id. With placements on both sides a piece that stands
 * where one is wanted stays, whatever the layouts are called. Without, of the pieces both layouts need a tenth is moved,
 * rounded up, when the kind of layout stays; all of them when it changes. All move when the floor must be clear in
 * between, and nothing does when the layout stays as it is. Cloths and settings that were eaten from are replaced.
 * @throws Error when a furnishing, its store or a passage on the way is not among those of the input
 */
export function pieceMoves(
  input: NetworkInput,
  { floorMustBeClear, staysAsItIs }: { readonly floorMustBeClear: boolean; readonly staysAsItIs: boolean },
): PieceMoves[] {
  const stoodById = countsById(input.standing)
  const wantedById = countsById(input.toLayout.furnishings)
  const keepsKind = input.standingKind === input.toLayout.kind
  const ids = [...new Set([...stoodById.keys(), ...wantedById.keys()])].sort()
  return ids.map((id): PieceMoves => {
    const furnishing = found(
      input.furnishings.find((one) => one.id === id),
      id,
    )
    const { storagePlaceId } = furnishing
    const store = found(
      input.storagePlaces.find((one) => one.id === storagePlaceId),
      storagePlaceId,
    )
    const stood = stoodById.get(id) ?? 0
    const wanted = wantedById.get(id) ?? 0
    const placesFrom = placesOf(input.placementsFrom, id, stood)
    const placesTo = placesOf(input.toLayout.placements, id, wanted)
    const isReplaced = input.outgoing?.foodServed === true && isSoiledByFood(furnishing.kind)
    const remain = isReplaced ? 0 : Math.min(stood, wanted)
    const isByPlacement = placesFrom !== null && placesTo !== null && remain > 0 && !staysAsItIs
    const displaced = isByPlacement
      ? floorMustBeClear
        ? { from: placesFrom, to: placesTo }
        : notInItsPlace(furnishing, placesFrom, placesTo)
      : null
    const stays = displaced
      ? stood - displaced.from.length
      : staysByCount(remain, { floorMustBeClear, staysAsItIs, keepsKind })
    return {
      furnishing,
      way: storeWay(furnishing, store, input),
      stood,
      wanted,
      stays,
      moves: remain - stays,
      toStore: stood - remain,
      fromStore: wanted - remain,
      placesFrom,
      placesTo,
      displaced,
    }
  })
}

function staysByCount(
  remain: number,
  how: { readonly floorMustBeClear: boolean; readonly staysAsItIs: boolean; readonly keepsKind: boolean },
): number {
  if (how.floorMustBeClear) return 0
  if (how.staysAsItIs) return remain
  return how.keepsKind ? remain - Math.ceil(remain * SHARE_MOVED_IN_SAME_KIND) : 0
}

/** The placements of one furnishing, if they are those of all its pieces. */
function placesOf(
  placements: readonly Placement[] | null,
  id: FurnishingId,
  count: number,
): readonly Placement[] | null {
  if (placements === null || count === 0) return null
  const places = placements.filter((placement) => placement.furnishingId === id)
  return places.length === count ? places : null
}

function countsById(
  pieces: readonly { readonly furnishingId: FurnishingId; readonly count: number }[],
): Map<FurnishingId, number> {
  const counts = new Map<FurnishingId, number>()
  for (const { furnishingId, count } of pieces)
    counts.set(furnishingId, (counts.get(furnishingId) ?? 0) + count)
  return counts
}

function found<Thing>(thing: Thing | undefined, id: string): Thing {
  if (thing === undefined)
    throw new Error(`${id} is named by what stands or is wanted, and is not in the input`)
  return thing
}
