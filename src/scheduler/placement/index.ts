/** Which piece goes where, and how far that is along the floor. */
export { type FloorPaths, floorPaths } from './floor-paths.ts'
export { type LeastMoves, leastMoves } from './least-moves.ts'
