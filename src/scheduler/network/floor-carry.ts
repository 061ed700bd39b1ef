/** Carrying pieces from one part of the floor to another, beyond the short carry that handling figures include. */
import type { Furnishing } from '../../domain/furnishing.ts'
import type { Rates } from '../../domain/rate-set.ts'
import type { MoveOnFloor } from './placed-moves.ts'
import { goesByTrolley, PUSHERS_MOST, type StoreWay, speedOfLoad, type TravelWork } from './travel.ts'

/** Pieces of one furnishing that go from one zone to another, or within one. */
export interface FloorCarry {
  /** Zone indexes. */
  readonly fromZone: number
  readonly toZone: number
  /** 1 or more. */
  readonly count: number
  /** The mean of all of them. */
  readonly metres: number
  /** The mean of what each goes beyond the short carry. */
  readonly beyondMetres: number
}

/** One for each pair of zones that any of the moves join, by zone. */
export function floorCarries(
  moves: readonly MoveOnFloor[],
  zoneOf: { readonly from: (move: MoveOnFloor) => number; readonly to: (move: MoveOnFloor) => number },
  { shortCarryMetres }: Rates,
): FloorCarry[] {
  const byZones = new Map<string, FloorCarry>()
  for (const move of moves) {
    const [fromZone, toZone] = [zoneOf.from(move), zoneOf.to(move)]
    const key = `${fromZone} ${toZone}`
    const { count, metres, beyondMetres } = byZones.get(key) ?? { count: 0, metres: 0, beyondMetres: 0 }
    byZones.set(key, {
      fromZone,
      toZone,
      count: count + 1,
      metres: metres + (move.metres - metres) / (count + 1),
      beyondMetres: beyondMetres + (Math.max(0, move.metres - shortCarryMetres) - beyondMetres) / (count + 1),
    })
  }
  return [...byZones.values()].sort((a, b) => a.fromZone - b.fromZone || a.toZone - b.toZone)
}

/** How they are carried. */
export interface FloorWay extends Pick<StoreWay, 'byTrolley' | 'piecesPerLoad' | 'people'> {
  readonly carry: FloorCarry
}

/** By trolley where there is one and it is less work than by hand, else as many at a time as hands hold. */
export function floorWay(furnishing: Furnishing, carry: FloorCarry, rates: Rates): FloorWay {
  const { kind, method, trolley, handsPerPiece } = furnishing
  const oneByOne = method === 'roll' || method === 'slide'
  const byHand: FloorWay = {
    carry,
    byTrolley: false,
    piecesPerLoad: oneByOne ? 1 : rates.piecesPerCarry[kind],
    people: handsPerPiece,
  }
  if (trolley === null || !goesByTrolley(furnishing)) return byHand
  const byTrolley: FloorWay = {
    carry,
    byTrolley: true,
    piecesPerLoad: trolley.capacityPieces,
    people: Math.min(handsPerPiece, PUSHERS_MOST),
  }
  const work = (way: FloorWay) =>
    Math.ceil(carry.count / way.piecesPerLoad) * floorLoadWork(furnishing, way, rates).practisedPersonSeconds
  return work(byTrolley) < work(byHand) ? byTrolley : byHand
}

/** Work of one load, there and back. */
export function floorLoadWork(furnishing: Furnishing, way: FloorWay, rates: Rates): TravelWork {
  const { beyondMetres } = way.carry
  const seconds =
    (way.byTrolley ? rates.trolleyHandlingSeconds : 0) +
    beyondMetres / rates[speedOfLoad({ furnishing, way })] +
    beyondMetres / rates.walkingMetresPerSecond
  return { practisedPersonSeconds: way.people * seconds, ridePersonSeconds: 0 }
}
