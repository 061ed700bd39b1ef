import type { Floor } from '../../domain/floor.ts'
import { floorOutline, polygonArea } from '../geometry/index.ts'

/** Square metres, whatever the shape. */
export const floorSquareMetres = (floor: Floor): number => polygonArea(floorOutline(floor))
