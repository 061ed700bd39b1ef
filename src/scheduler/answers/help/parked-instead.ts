/** What the next booking in the room wants again is left at a parking place of the room, and not carried to its store. */
import type { FurnishingId } from '../../../domain/ids.ts'
import { deviceSwitches, needFloorClear } from '../../network/device-switches.ts'
import type { NetworkInput } from '../../network/network-input.ts'
import { parkedPieces } from '../../network/parking.ts'
import { countsById, pieceMoves } from '../../network/piece-moves.ts'
import { layoutOf, sharesSection } from '../../timeline/world.ts'
import { listText } from '../../wording/list-text.ts'
import { type Circumstances, circumstancesOf } from '../circumstances.ts'
import { readyAtIn } from '../ready.ts'
import { beginning, type Candidate, type HelpAsked } from './candidate.ts'
import { keptNearby, piecesOneWay } from './kept-nearby.ts'

/**
 * Only where the room names its parking places: they are clear of exits, and somebody has said that pieces may stand
 * there. Furnishings by id, each with all of its pieces or none, as far as what waits there during the turn leaves room.
 */
export function parkedInsteadHelp({ snapshot, turn, circumstances, search }: HelpAsked): Candidate[] {
  const { input } = circumstances.part
  const { network, room } = input
  const later = wantedLater(circumstances)
  let leftSquareMetres = room.parking.reduce((sum, place) => sum + place.areaSquareMetres, 0)
  leftSquareMetres -= usedMeanwhile(network)
  const parked = piecesOneWay(network).filter(({ furnishing, stood, wanted }) => {
    const goes = stood - wanted
    const areaSquareMetres = goes * areaEach(network, furnishing.id)
    if (goes <= 0 || (later.get(furnishing.id) ?? 0) < goes || areaSquareMetres > leftSquareMetres)
      return false
    leftSquareMetres -= areaSquareMetres
    return true
  })
  if (parked.length === 0) return []
  const furnishingIds = parked.map(({ furnishing }) => furnishing.id)
  const place = listText(room.parking.map(({ name }) => name))
  const names = listText(parked.map(({ furnishing }) => furnishing.namePlural))
  return [
    {
      change: { kind: 'parked', furnishingIds },
      what: `${beginning(names)} parked (${place}) instead of in the store`,
      isNeverLater: false,
      readyAt: () => {
        const nearby = keptNearby(snapshot, room.id, furnishingIds, place)
        const changed = circumstancesOf(nearby, turn)
        return changed && readyAtIn(changed, search)
      },
    },
  ]
}

/** By the layout of the next booking in any part of the room. */
function wantedLater({ world, part }: Circumstances): Map<FurnishingId, number> {
  const { room, dueAt, booking } = part.input
  const next = world.bookings.find(
    (one) =>
      one.id !== booking.id &&
      one.doorsAt > dueAt &&
      sharesSection(world.roomsById.get(one.roomId) ?? { sectionIds: [] }, room),
  )
  return next ? countsById(layoutOf(world, next.layoutId).furnishings) : new Map()
}

const areaEach = ({ furnishings, rates }: NetworkInput, id: FurnishingId): number => {
  const furnishing = furnishings.find((one) => one.id === id)!
  return furnishing.storedAreaSquareMetres ?? rates.storedAreaSquareMetres[furnishing.kind]
}

/** Floor taken by pieces that wait there to be set again. */
function usedMeanwhile(input: NetworkInput): number {
  const floorMustBeClear = needFloorClear(deviceSwitches(input))
  const staysAsItIs = input.sameLayout && !floorMustBeClear
  const parked = parkedPieces(input, pieceMoves(input, { floorMustBeClear, staysAsItIs }))
  return [...parked].reduce((sum, [id, { count }]) => sum + count * areaEach(input, id), 0)
}
