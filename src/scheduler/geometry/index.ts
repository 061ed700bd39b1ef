/** Floors seen from above. */
export { containsCircle, containsPoint, containsPolygon, metresOutside } from './contains.ts'
export { fixedOutline } from './fixed-outline.ts'
export { floorOutline } from './floor-outline.ts'
export { pieceOutline } from './piece-outline.ts'
export { polygonArea } from './polygon-area.ts'
export { polygonMiddle } from './polygon-middle.ts'
export { polygonSides, sideLengthMetres } from './polygon-sides.ts'
export { repeatedCorner, selfCrossing } from './self-crossing.ts'
