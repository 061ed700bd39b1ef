/** Where pieces that are wanted again wait: in the room as far as there is a place for them, else back in their store. */
import type { FurnishingId } from '../../domain/ids.ts'
import type { ParkingPlace } from '../../domain/room.ts'
import { listText } from '../wording/list-text.ts'
import type { NetworkInput } from './network-input.ts'
import type { PieceMoves } from './piece-moves.ts'
import { loadWork } from './travel.ts'

/** Of the floor, where a room has no parking places: the side of the room. Common practice, no source. */
const SIDE_SHARE_OF_FLOOR = 0.1

export interface Parked {
  /** 1 or more. */
  readonly count: number
  /** Where, as it is said: `the side of the room`, `the west wall (40) and the foyer (20)`. */
  readonly place: string
}

/**
 * How many of the pieces that move wait in the room, by furnishing; one that is not named is carried out and back.
 * Handling is the same either way, so parking saves the way to the store, and is chosen where that costs anything. What
 * saves most for the floor it takes comes first, then by id. Places are filled in the order they are listed.
 */
export function parkedPieces(input: NetworkInput, moves: readonly PieceMoves[]): Map<FurnishingId, Parked> {
  const places = parkingPlaces(input)
  const leftSquareMetres = places.map((place) => place.areaSquareMetres)
  const wanting = moves
    .filter((one) => one.moves > 0)
    .map((one) => {
      const { furnishing, way } = one
      const { practisedPersonSeconds, ridePersonSeconds } = loadWork(furnishing, way, input.rates)
      const areaEach =
        furnishing.storedAreaSquareMetres ?? input.rates.storedAreaSquareMetres[furnishing.kind]
      const savedEach = (practisedPersonSeconds + ridePersonSeconds) / way.piecesPerLoad
      return { ...one, areaEach, savedEach }
    })
    .filter((one) => one.savedEach > 0)
    .sort(
      (a, b) =>
        b.savedEach / b.areaEach - a.savedEach / a.areaEach || (a.furnishing.id < b.furnishing.id ? -1 : 1),
    )
  const parked = new Map<FurnishingId, Parked>()
  for (const { furnishing, moves: count, areaEach } of wanting) {
    const used: { name: string; count: number }[] = []
    let left = count
    for (const [index, { name }] of places.entries()) {
      const fits = Math.min(left, Math.floor(leftSquareMetres[index]! / areaEach + 1e-9))
      if (fits === 0) continue
      leftSquareMetres[index]! -= fits * areaEach
      left -= fits
      used.push({ name, count: fits })
    }
    if (left < count) parked.set(furnishing.id, { count: count - left, place: placeText(used) })
  }
  return parked
}

function parkingPlaces({ room, areaSquareMetres }: NetworkInput): readonly ParkingPlace[] {
  return room.parking.length > 0
    ? room.parking
    : [{ name: 'the side of the room', areaSquareMetres: areaSquareMetres * SIDE_SHARE_OF_FLOOR }]
}

function placeText(used: readonly { readonly name: string; readonly count: number }[]): string {
  const texts = used.length === 1 ? [used[0]!.name] : used.map(({ name, count }) => `${name} (${count})`)
  return listText(texts)
}
