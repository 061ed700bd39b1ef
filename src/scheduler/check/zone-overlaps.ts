/** Zones of a room that lie on one another. */
import type { FloorZone } from '../../domain/floor.ts'
import type { Room } from '../../domain/room.ts'
import { polygonArea } from '../geometry/index.ts'
import { overlapSquareMetres } from './overlap-area.ts'

/** Of the smaller zone: drawing and rounding explain so much. */
const SHARE_ALLOWED = 0.05

export interface ZoneOverlap {
  readonly zone: FloorZone
  readonly other: FloorZone
  /** Places in `room.zones`; `index` is the later one. */
  readonly index: number
  readonly squareMetres: number
}

/** Each pair, by the later one. */
export const zoneOverlaps = ({ zones }: Room): ZoneOverlap[] =>
  zones.flatMap((zone, index) =>
    zones.slice(0, index).flatMap((other): ZoneOverlap[] => {
      const squareMetres = overlapSquareMetres(zone.corners, other.corners)
      const smaller = Math.min(polygonArea(zone.corners), polygonArea(other.corners))
      return squareMetres > SHARE_ALLOWED * smaller ? [{ zone, other, index, squareMetres }] : []
    }),
  )
