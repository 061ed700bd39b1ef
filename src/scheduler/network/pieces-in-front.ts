/** What stands in the stores in front of what is wanted, or of where something is put away. */
import type { Furnishing } from '../../domain/furnishing.ts'
import type { FurnishingId } from '../../domain/ids.ts'
import type { StoragePlace } from '../../domain/storage-place.ts'
import type { NetworkInput } from './network-input.ts'
import type { PieceJob, PieceJobs } from './piece-jobs.ts'

/** Pieces of one kind that stand in front. */
export interface InFront {
  readonly store: StoragePlace
  readonly furnishing: Furnishing
  /** 1 or more: out of the way they must all go. */
  readonly count: number
  /** Of those, what is put back: what is fetched in this turn anyway stays out. */
  readonly countBack: number
  /** This very turn puts them there: they are in the way only once they are struck. */
  readonly justStruck: boolean
  /** What stands behind them and is fetched, by the order of the store. */
  readonly fetched: readonly Furnishing[]
  /** What goes behind them when it is put away. Empty for pieces that are just struck. */
  readonly putAway: readonly Furnishing[]
}

/**
 * What stands in front, by the depth order of each store: of each kind all pieces that are not in this room, which is the
 * most there can be, in front of what is fetched and of what is put away; and those that the turn itself puts there, in
 * front of what is fetched. Pieces that the turn puts away side by side are taken to be put in from the back to the
 * front, whatever order they come in: the last ones wait beside the door. None where nothing stands in front.
 */
export function piecesInFront(input: NetworkInput, jobs: Pick<PieceJobs, 'strike' | 'set'>): InFront[] {
  const withDepth = input.storagePlaces.filter(({ depthOrder }) => depthOrder.length > 1)
  if (withDepth.length === 0) return []
  const putCounts = countsById(jobs.strike.filter(({ withStore, soiled }) => withStore && !soiled))
  const fetchedCounts = countsById(jobs.set.filter(({ withStore }) => withStore))
  return withDepth
    .flatMap((store) => {
      const kept = store.depthOrder.flatMap((id) => {
        const furnishing = input.furnishings.find((one) => one.id === id && one.storagePlaceId === store.id)
        return furnishing ? [furnishing] : []
      })
      return kept.flatMap((furnishing, depth): InFront[] => {
        const behind = kept.slice(depth + 1)
        const fetched = behind.filter(({ id }) => fetchedCounts.has(id))
        const putAway = behind.filter(({ id }) => putCounts.has(id))
        const standing = input.standing
          .filter((one) => one.furnishingId === furnishing.id)
          .reduce((sum, { count }) => sum + count, 0)
        const stored = furnishing.countOwned - standing
        const struckCount = putCounts.get(furnishing.id) ?? 0
        const countBack = Math.max(0, stored - (fetchedCounts.get(furnishing.id) ?? 0))
        const inStore = { count: stored, countBack, justStruck: false, fetched, putAway }
        const struck = {
          count: struckCount,
          countBack: struckCount,
          justStruck: true,
          fetched,
          putAway: [],
        }
        return [inStore, struck]
          .filter((one) => one.count > 0 && one.fetched.length + one.putAway.length > 0)
          .map((one) => ({ store, furnishing, ...one }))
      })
    })
    .sort((a, b) => (a.store.id === b.store.id ? 0 : a.store.id < b.store.id ? -1 : 1))
}

function countsById(jobs: readonly PieceJob[]): Map<FurnishingId, number> {
  const counts = new Map<FurnishingId, number>()
  for (const { furnishing, byZone } of jobs) {
    const count = byZone.reduce((sum, pieces) => sum + pieces, 0)
    counts.set(furnishing.id, (counts.get(furnishing.id) ?? 0) + count)
  }
  return counts
}
