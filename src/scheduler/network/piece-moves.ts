/** Which pieces stay, move, go out and come in: by where each one stands where that is known, else by their numbers. */
import type { Furnishing, FurnishingKind } from '../../domain/furnishing.ts'
import type { FurnishingId } from '../../domain/ids.ts'
import type { Placement } from '../../domain/layout.ts'
import { type FloorPaths, floorPaths } from '../placement/index.ts'
import { isSoiled } from './is-soiled.ts'
import { builtAs, placesByThing } from './kept-together.ts'
import { withStraightMoves } from './moved-straight.ts'
import type { NetworkInput } from './network-input.ts'
import { isChair, isTable, standsOnFloor } from './piece-kinds.ts'
import { type PlacedMoves, placedMoves } from './placed-moves.ts'
import { notInItsPlace } from './placement-matching.ts'
import { type StoreWay, storeWay } from './travel.ts'

/** stays + moves, straight ones too, + toStore = what stood; with fromStore instead, what is wanted. */
export interface PieceMoves {
  readonly furnishing: Furnishing
  readonly way: StoreWay
  readonly stood: number
  readonly wanted: number
  readonly stays: number
  /** Out of the way, and set again. */
  readonly moves: number
  /** Straight to where they are wanted. */
  readonly movesStraight: number
  readonly toStore: number
  readonly fromStore: number
  /** Where each piece stands, in the order given; null: only how many there are is known. */
  readonly placesFrom: readonly Placement[] | null
  /** Where each piece is wanted. */
  readonly placesTo: readonly Placement[] | null
  /** Where they stand or what they belong to does, for sharing them over zones; null: nobody knows. */
  readonly seenFrom: readonly Placement[] | null
  readonly seenTo: readonly Placement[] | null
  /** By zone index, in proportion, where that is all that is known. */
  readonly spreadFrom: readonly number[] | null
  readonly spreadTo: readonly number[] | null
  /** They were eaten from: what stood goes to be washed, and all that is wanted comes from the clean ones. */
  readonly soiled: boolean
  /** Where all places are known: which of the pieces that do not stay goes where. */
  readonly placed: PlacedMoves | null
}

/** Of the pieces both layouts need, where the kind of layout stays. Common practice, no source. */
const SHARE_MOVED_IN_SAME_KIND = 0.1

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
  const paths = floorPaths(input.room.floor, input.room.fixedThings)
  const ids = [...new Set([...stoodById.keys(), ...wantedById.keys()])].sort()
  const moves = ids.map((id): PieceMoves => {
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
    const soiled = isSoiled(furnishing, input.outgoing)
    const remain = soiled ? 0 : Math.min(stood, wanted)
    const way = storeWay(furnishing, store, input)
    const standsFrom = stood === 0 ? [] : placesFrom
    const standsTo = wanted === 0 ? [] : placesTo
    const isByPlacement = standsFrom !== null && standsTo !== null && (soiled || !staysAsItIs)
    const placed = isByPlacement
      ? movesByPlacement({ furnishing, soiled, floorMustBeClear }, standsFrom, standsTo, way, paths)
      : null
    const stays = placed
      ? stood - placed.onFloor.length - placed.toStore.length
      : staysByCount(remain, { floorMustBeClear, staysAsItIs, keepsKind })
    return {
      furnishing,
      way,
      stood,
      wanted,
      stays,
      moves: remain - stays,
      movesStraight: 0,
      toStore: stood - remain,
      fromStore: wanted - remain,
      placesFrom,
      placesTo,
      seenFrom: placesFrom,
      seenTo: placesTo,
      spreadFrom: input.spread?.from.get(id) ?? null,
      spreadTo: input.spread?.to.get(id) ?? null,
      soiled,
      placed,
    }
  })
  const goStraight = floorMustBeClear ? moves : withStraightMoves(moves, input.rates.shortCarryMetres)
  return seenWithWhatTheyBelongTo(goStraight, input)
}

/** What stands where it is wanted stays, unless the floor must be clear or it is dirty. */
function movesByPlacement(
  of: { readonly furnishing: Furnishing; readonly soiled: boolean; readonly floorMustBeClear: boolean },
  from: readonly Placement[],
  to: readonly Placement[],
  way: StoreWay,
  paths: FloorPaths,
): PlacedMoves {
  const displaced = of.floorMustBeClear || of.soiled ? { from, to } : notInItsPlace(of.furnishing, from, to)
  return placedMoves(displaced.from, displaced.to, !of.soiled, way, paths)
}

/** Rails without places of their own are where the decks are; cloths, settings and chairs of a banquet at the tables. */
function seenWithWhatTheyBelongTo(
  moves: readonly PieceMoves[],
  { standingKind, toLayout }: NetworkInput,
): PieceMoves[] {
  const from = seenElsewhere(moves, 'stood', 'placesFrom', standingKind === 'banquet')
  const to = seenElsewhere(moves, 'wanted', 'placesTo', toLayout.kind === 'banquet')
  return moves.map((one) => ({
    ...one,
    seenFrom: one.placesFrom ?? from(one.furnishing.kind),
    seenTo: one.placesTo ?? to(one.furnishing.kind),
  }))
}

/** Where pieces of a kind are by the places of others; null: those say nothing. */
function seenElsewhere(
  moves: readonly PieceMoves[],
  count: 'stood' | 'wanted',
  places: 'placesFrom' | 'placesTo',
  chairsStandAtTables: boolean,
): (kind: FurnishingKind) => readonly Placement[] | null {
  const builtThings = placesByThing(moves.map((one) => ({ kind: one.furnishing.kind, places: one[places] })))
  const tables = moves.filter((one) => isTable(one.furnishing.kind) && one[count] > 0)
  const tablePlaces = tables.flatMap((one) => one[places] ?? [])
  const allTables = tablePlaces.length > 0 && tables.every((one) => one[places] !== null) ? tablePlaces : null
  return (kind) => {
    const thing = builtAs(kind)
    if (thing !== null) return builtThings.get(thing) ?? null
    return !standsOnFloor(kind) || (chairsStandAtTables && isChair(kind)) ? allTables : null
  }
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

/** How many there are of each, several entries added up. */
export function countsById(
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
