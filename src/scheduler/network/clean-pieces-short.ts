/** Whether there are clean cloths and place settings enough to take the place of soiled ones. */
import type { Furnishing } from '../../domain/furnishing.ts'
import { isSoiled } from './is-soiled.ts'
import type { NetworkInput } from './network-input.ts'
import { countsById } from './piece-moves.ts'

interface CleanPiecesShort {
  readonly furnishing: Furnishing
  /** How many more the site would have to own; 1 or more. */
  readonly short: number
}

/**
 * What a meal left dirty is in the wash until after the turn, so what is wanted must come from the others: of each
 * furnishing that stood while food was served, wanted − (owned − stood). What stands in other rooms is not known here;
 * take it off `countOwned` where it matters. Task networks are made all the same: they say what is needed.
 * @returns by id; empty where clean ones suffice, no food was served, or nothing of the kind stood
 */
export function cleanPiecesShort({
  standing,
  toLayout,
  outgoing,
  furnishings,
}: Pick<NetworkInput, 'standing' | 'toLayout' | 'outgoing' | 'furnishings'>): CleanPiecesShort[] {
  const stoodById = countsById(standing)
  const wantedById = countsById(toLayout.furnishings)
  return furnishings
    .filter((furnishing) => isSoiled(furnishing, outgoing) && stoodById.has(furnishing.id))
    .map((furnishing) => ({
      furnishing,
      short: (wantedById.get(furnishing.id) ?? 0) + stoodById.get(furnishing.id)! - furnishing.countOwned,
    }))
    .filter(({ furnishing, short }) => short > 0 && wantedById.has(furnishing.id))
    .sort((a, b) => (a.furnishing.id < b.furnishing.id ? -1 : 1))
}
