/** The parts a floor is worked in, so that one can be set while the next is still being cleaned. */
import type { FloorPoint, FloorZone } from '../../domain/floor.ts'
import { containsPoint, polygonArea, polygonMiddle } from '../geometry/index.ts'
import { evenParts } from './lots.ts'
import type { NetworkInput } from './network-input.ts'

/** One part of the floor. */
export interface Zone {
  /** From 1. */
  readonly number: number
  /** As the crew knows it; null: a strip without a name. */
  readonly name: string | null
  readonly areaSquareMetres: number
}

export interface FloorPlan {
  readonly zones: readonly Zone[]
  /** Index of the zone a piece stands in; one that is in none counts to the nearest. */
  readonly zoneAt: (point: FloorPoint) => number
}

/** A longer list of zones is of no use to the people on the floor. */
const ZONES_MOST = 12

/** How many zones a floor has before any are put together: those with names, or strips; 1 to 12. */
export const zonesMost = ({ room, areaSquareMetres, policy }: NetworkInput): number =>
  room.zones.length > 0 ? room.zones.length : zoneCount(areaSquareMetres, policy.zoneSquareMetres)

/**
 * @param areaSquareMetres  of the whole room, positive
 * @param zoneSquareMetres  the largest a strip should be
 * @returns 1 to 12
 */
export function zoneCount(areaSquareMetres: number, zoneSquareMetres: number): number {
  return Math.min(ZONES_MOST, Math.max(1, Math.ceil(areaSquareMetres / zoneSquareMetres)))
}

/**
 * The floor in `count` zones. Named zones keep their order; neighbours in it are put together where there are more of
 * them. Their shares of the floor follow from their polygons, the floor itself from its sections: nothing of it is
 * forgotten between zones. Strips are equally large and lie across the longer side.
 * @param count  1 up to `zonesMost`
 */
export function floorPlan(input: NetworkInput, count: number): FloorPlan {
  return input.room.zones.length > 0 ? namedPlan(input, count) : stripPlan(input, count)
}

function namedPlan({ room, areaSquareMetres }: NetworkInput, count: number): FloorPlan {
  const groups: FloorZone[][] = []
  let first = 0
  for (const size of evenParts(room.zones.length, count)) {
    groups.push(room.zones.slice(first, first + size))
    first += size
  }
  const squareMetres = groups.map((group) => group.reduce((sum, zone) => sum + polygonArea(zone.corners), 0))
  const all = squareMetres.reduce((sum, area) => sum + area, 0)
  const middles = room.zones.map((zone) => polygonMiddle(zone.corners))
  const groupOf = groups.flatMap((group, index) => group.map(() => index))
  return {
    zones: groups.map((group, index) => ({
      number: index + 1,
      name: group.length === 1 ? group[0]!.name : `${group[0]!.name} to ${group.at(-1)!.name}`,
      areaSquareMetres: all > 0 ? (areaSquareMetres * squareMetres[index]!) / all : areaSquareMetres / count,
    })),
    zoneAt: (point) => {
      const holding = room.zones.findIndex((zone) => containsPoint(zone.corners, point))
      return groupOf[holding >= 0 ? holding : nearest(point, middles)]!
    },
  }
}

function stripPlan(input: NetworkInput, count: number): FloorPlan {
  const zones = Array.from({ length: count }, (_, index) => ({
    number: index + 1,
    name: null,
    areaSquareMetres: input.areaSquareMetres / count,
  }))
  let along: ((point: FloorPoint) => number) | null = null
  return {
    zones,
    zoneAt: (point) => {
      along ??= shareAlong(input)
      return Math.min(count - 1, Math.max(0, Math.floor(along(point) * count)))
    },
  }
}

/** How far along the longer side of the floor a point is, 0 to 1; without a floor plan, of what stands and is wanted. */
function shareAlong({ room, placementsFrom, toLayout }: NetworkInput): (point: FloorPoint) => number {
  const { floor } = room
  if (floor?.kind === 'rectangle') {
    const { widthMetres, depthMetres } = floor
    return widthMetres >= depthMetres ? (p) => p.xMetres / widthMetres : (p) => p.yMetres / depthMetres
  }
  const points = floor ? floor.corners : [...(placementsFrom ?? []), ...toLayout.placements]
  const [leftMetres, widthMetres] = extent(points.map((point) => point.xMetres))
  const [frontMetres, depthMetres] = extent(points.map((point) => point.yMetres))
  return widthMetres >= depthMetres
    ? (p) => (p.xMetres - leftMetres) / Math.max(widthMetres, 1e-9)
    : (p) => (p.yMetres - frontMetres) / Math.max(depthMetres, 1e-9)
}

function extent(values: readonly number[]): [from: number, length: number] {
  let least = Number.POSITIVE_INFINITY
  let most = Number.NEGATIVE_INFINITY
  for (const value of values) {
    least = Math.min(least, value)
    most = Math.max(most, value)
  }
  return values.length === 0 ? [0, 0] : [least, most - least]
}

function nearest(point: FloorPoint, middles: readonly FloorPoint[]): number {
  let best = 0
  for (const [index, middle] of middles.entries()) {
    if (metresBetween(point, middle) < metresBetween(point, middles[best]!)) best = index
  }
  return best
}

const metresBetween = (a: FloorPoint, b: FloorPoint): number =>
  Math.hypot(a.xMetres - b.xMetres, a.yMetres - b.yMetres)
