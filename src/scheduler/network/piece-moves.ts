/** Which pieces stay, move, go out and come in. Counts decide: where a piece stands is not known yet. */
import type { Furnishing } from '../../domain/furnishing.ts'
import type { FurnishingId } from '../../domain/ids.ts'
import type { StoragePlace } from '../../domain/storage-place.ts'
import type { NetworkInput } from './network-input.ts'

/** stays + moves + toStore = what stood; stays + moves + fromStore = what is wanted. */
export interface PieceMoves {
  readonly furnishing: Furnishing
  readonly store: StoragePlace
  readonly stays: number
  /** Taken aside within the room and set again. */
  readonly moves: number
  readonly toStore: number
  readonly fromStore: number
}

/** Of the pieces both layouts need, where the kind of layout stays. Common practice, no source. */
const SHARE_MOVED_IN_SAME_KIND = 0.1

/**
 * One entry for each furnishing that stands or is wanted, by id. Of the pieces both layouts need a tenth is moved,
 * rounded up, when the kind of layout stays; all of them when it changes or the floor must be clear in between.
 * @throws Error when a furnishing or its store is not among those of the input
 */
export function pieceMoves(input: NetworkInput, floorMustBeClear: boolean): PieceMoves[] {
  const stood = countsById(input.standing)
  const wanted = countsById(input.toLayout.furnishings)
  const keepsKind = input.standingKind === input.toLayout.kind && !floorMustBeClear
  const ids = [...new Set([...stood.keys(), ...wanted.keys()])].sort()
  return ids.map((id) => {
    const furnishing = found(
      input.furnishings.find((one) => one.id === id),
      id,
    )
    const { storagePlaceId } = furnishing
    const store = found(
      input.storagePlaces.find((one) => one.id === storagePlaceId),
      storagePlaceId,
    )
    const before = stood.get(id) ?? 0
    const after = wanted.get(id) ?? 0
    const remain = Math.min(before, after)
    const moves = keepsKind ? Math.ceil(remain * SHARE_MOVED_IN_SAME_KIND) : remain
    return {
      furnishing,
      store,
      stays: remain - moves,
      moves,
      toStore: before - remain,
      fromStore: after - remain,
    }
  })
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
