/** What stands in front of what is wanted, in the stores. */
import type { Furnishing } from '../../domain/furnishing.ts'
import type { StoragePlace } from '../../domain/storage-place.ts'
import type { NetworkInput } from './network-input.ts'

/** Pieces of one kind that stand in front of what is wanted. */
export interface InFront {
  readonly store: StoragePlace
  readonly furnishing: Furnishing
  /** 1 or more. */
  readonly count: number
  readonly behind: readonly Furnishing[]
}

/**
 * What stands in front, by the depth order of each store that pieces are fetched from: of each kind before them all
 * pieces that are not in this room, which is the most there can be. None where nothing stands in front.
 */
export function piecesInFront(input: NetworkInput, fetched: readonly Furnishing[]): InFront[] {
  const found: InFront[] = []
  for (const store of input.storagePlaces) {
    if (store.depthOrder.length === 0) continue
    for (const [depth, id] of store.depthOrder.entries()) {
      const furnishing = input.furnishings.find((one) => one.id === id && one.storagePlaceId === store.id)
      if (!furnishing) continue
      const behind = fetched.filter(
        (one) => one.storagePlaceId === store.id && store.depthOrder.indexOf(one.id) > depth,
      )
      const standing = input.standing.reduce((sum, one) => sum + (one.furnishingId === id ? one.count : 0), 0)
      const count = furnishing.countOwned - standing
      if (behind.length > 0 && count > 0) found.push({ store, furnishing, count, behind })
    }
  }
  return found.sort((a, b) => (a.store.id === b.store.id ? 0 : a.store.id < b.store.id ? -1 : 1))
}
