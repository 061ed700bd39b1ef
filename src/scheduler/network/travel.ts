/** The way between a store and the room, beyond the short carry that handling figures include. */
import type { Furnishing } from '../../domain/furnishing.ts'
import type { RoomId } from '../../domain/ids.ts'
import type { StoragePlace } from '../../domain/storage-place.ts'
import type { Rates } from './rates.ts'

/** A heavy trolley is pushed by two, however many set up what is on it. Common practice, no source. */
const PUSHERS_MOST = 2

/**
 * Trips between store and room: trolley loads where the site owns a trolley for the kind, carries where it does not.
 * A load may serve several zones, so it is counted over all pieces of a turn, not lot by lot.
 */
export function tripsBetween(furnishing: Furnishing, pieces: number, rates: Rates): number {
  return Math.ceil(pieces / (furnishing.trolley?.capacityPieces ?? rates.piecesPerCarry[furnishing.kind]))
}

/**
 * Work to take pieces between a store and the room, there and back, for practised workers: pace and allowance are
 * not in it yet. A load costs the handling of the trolley, the way with the loaded trolley and the way back on foot,
 * for each of its pushers; a carry costs the way with the piece and the way back for each of its carriers.
 * @param pieces          0 or more
 * @param distanceMetres  one way, along the route walked; up to the short carry it costs no way at all
 * @returns person-seconds; 0 for no pieces
 */
export function travelPersonSeconds(
  furnishing: Furnishing,
  pieces: number,
  distanceMetres: number,
  rates: Rates,
): number {
  const trips = tripsBetween(furnishing, pieces, rates)
  const beyondMetres = Math.max(0, distanceMetres - rates.shortCarryMetres)
  const backSeconds = beyondMetres / rates.walkingMetresPerSecond
  if (furnishing.trolley) {
    const outSeconds = beyondMetres / rates.loadedTrolleyMetresPerSecond
    const pushers = Math.min(furnishing.handsPerPiece, PUSHERS_MOST)
    return trips * pushers * (rates.trolleyHandlingSeconds + outSeconds + backSeconds)
  }
  const outSeconds = beyondMetres / rates.carryingMetresPerSecond
  return trips * furnishing.handsPerPiece * (outSeconds + backSeconds)
}

/** One way; the cautious guess of the rates where the store has no route to the room on record. */
export function distanceToRoomMetres(store: StoragePlace, roomId: RoomId, rates: Rates): number {
  return store.routes.find((route) => route.roomId === roomId)?.distanceMetres ?? rates.routeUnknownMetres
}
