/** The way between a store and the room, beyond the short carry that handling figures include. */
import type { FloorPoint } from '../../domain/floor.ts'
import type { Furnishing } from '../../domain/furnishing.ts'
import type { Passage } from '../../domain/passage.ts'
import type { Rates } from '../../domain/rate-set.ts'
import type { StoragePlace } from '../../domain/storage-place.ts'
import type { NetworkInput } from './network-input.ts'

/** A heavy trolley is pushed by two, however many set up what is on it. Common practice, no source. */
export const PUSHERS_MOST = 2

/** How pieces of one furnishing go between their store and the room. */
export interface StoreWay {
  readonly store: StoragePlace
  /** One way, along the route walked. */
  readonly distanceMetres: number
  /** false: no route is on record, the distance is the cautious guess of the rates. */
  readonly distanceIsKnown: boolean
  /** In the order of the route. */
  readonly passages: readonly Passage[]
  readonly byTrolley: boolean
  readonly piecesPerLoad: number
  /** Who pushes the trolley, or carries what is taken at a time. */
  readonly people: number
  /** Of all lifts on the way, one way. */
  readonly rideSeconds: number
  /** Where it comes onto the floor of the room; null: not known. */
  readonly doorAt: FloorPoint | null
}

/** The method decides: what is said to be carried is carried, even where a trolley for it is entered. */
export const goesByTrolley = ({ method, trolley }: Furnishing): boolean =>
  method === 'trolley' && trolley !== null

/** @throws Error when the route names a passage that is not in the input */
export function storeWay(furnishing: Furnishing, store: StoragePlace, input: NetworkInput): StoreWay {
  const route = store.routes.find((one) => one.roomId === input.room.id)
  const passages = (route?.passageIds ?? []).map((id) => {
    const passage = input.passages.find((one) => one.id === id)
    if (!passage) throw new Error(`${id} is on the way to ${store.id}, and is not in the input`)
    return passage
  })
  const byTrolley = goesByTrolley(furnishing) && !passages.some((passage) => passage.kind === 'stairs')
  return {
    store,
    distanceMetres: route?.distanceMetres ?? input.rates.routeUnknownMetres,
    distanceIsKnown: route !== undefined,
    passages,
    byTrolley,
    piecesPerLoad: piecesPerLoad(furnishing, byTrolley, passages, input.rates),
    people: byTrolley ? Math.min(furnishing.handsPerPiece, PUSHERS_MOST) : furnishing.handsPerPiece,
    rideSeconds: passages.reduce((sum, passage) => sum + passage.rideSeconds, 0),
    doorAt: route?.doorAt ?? null,
  }
}

/**
 * What fits a trolley, or is carried at a time; what is rolled or slid goes one by one. A lift's limit counts pieces
 * by their mass: trolley and people are not on record. One piece always goes.
 */
function piecesPerLoad(
  { trolley, method, kind, massKilograms }: Furnishing,
  byTrolley: boolean,
  passages: readonly Passage[],
  rates: Rates,
): number {
  const goOneByOne = method === 'roll' || method === 'slide'
  const byHand = goOneByOne ? 1 : rates.piecesPerCarry[kind]
  let most = byTrolley && trolley ? trolley.capacityPieces : byHand
  for (const { loadLimitKilograms } of passages) {
    if (loadLimitKilograms !== null) most = Math.min(most, Math.floor(loadLimitKilograms / massKilograms))
  }
  return Math.max(1, most)
}

/** Metres one way that cost time of their own. */
export const beyondShortCarryMetres = (way: StoreWay, rates: Rates): number =>
  Math.max(0, way.distanceMetres - rates.shortCarryMetres)

/** The rate that says how fast people are with a load. What is slid is as slow as a loaded trolley: a guess. */
export const speedOfLoad = ({
  furnishing,
  way,
}: {
  readonly furnishing: Furnishing
  readonly way: Pick<StoreWay, 'byTrolley'>
}): 'loadedTrolleyMetresPerSecond' | 'carryingMetresPerSecond' =>
  way.byTrolley || furnishing.method === 'slide' ? 'loadedTrolleyMetresPerSecond' : 'carryingMetresPerSecond'

export interface TravelWork {
  /** For practised workers: pace and allowance are not in it yet. */
  readonly practisedPersonSeconds: number
  /** In lifts, whatever the pace. */
  readonly ridePersonSeconds: number
}

/**
 * Work of one load, there and back: the handling of the trolley, the way with the load, the way back on foot, and the
 * lift both ways, for each of its people. Up to the short carry the way costs nothing.
 */
export function loadWork(furnishing: Furnishing, way: StoreWay, rates: Rates): TravelWork {
  const beyondMetres = beyondShortCarryMetres(way, rates)
  const seconds =
    (way.byTrolley ? rates.trolleyHandlingSeconds : 0) +
    beyondMetres / rates[speedOfLoad({ furnishing, way })] +
    beyondMetres / rates.walkingMetresPerSecond
  return {
    practisedPersonSeconds: way.people * seconds,
    ridePersonSeconds: way.people * 2 * way.rideSeconds,
  }
}
