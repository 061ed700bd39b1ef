/** What can be wrong with an exit beyond its shape. */
import type { Exit } from '../../domain/exit.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import {
  floorOutline,
  metresOutside,
  polygonSides,
  sideLengthMetres,
} from '../../scheduler/geometry/index.ts'
import { unknownIds } from '../known-ids.ts'
import { bodyFault, type Fault } from '../problems.ts'

export const exitFaults = (exit: Exit, setup: SiteSetup): Fault[] => [
  ...unknownIds(() => '/sectionId', [exit.sectionId], setup.sections, 'section', setup.retired.sections),
  ...widthFaults(exit, setup),
  ...positionFaults(exit, setup),
]

/** How far off every floor an exit may be: the depth of a wall or a porch. */
const OFF_FLOOR_MOST_METRES = 1

/** Distances between exits are told from where they are: one that is nowhere near a room would make them all fit. */
function positionFaults({ position, sectionId }: Exit, { rooms }: SiteSetup): Fault[] {
  if (position === null) return []
  let nearest: { metres: number; roomName: string } | null = null
  for (const { floor, sectionIds, name } of rooms) {
    if (floor === null || !sectionIds.includes(sectionId)) continue
    const metres = metresOutside(floorOutline(floor), position)
    if (nearest === null || metres < nearest.metres) nearest = { metres, roomName: name }
  }
  if (nearest === null || nearest.metres <= OFF_FLOOR_MOST_METRES) return []
  const metres = Math.ceil(nearest.metres * 10) / 10
  const message = `the exit would be ${metres} m off the floor of ${nearest.roomName}; give a place in one of its walls, or leave the position out`
  return [bodyFault('/position', message)]
}

function widthFaults(exit: Exit, setup: SiteSetup): Fault[] {
  const { clearWidthMetres, wallMetres } = exit
  if (wallMetres !== null) {
    return clearWidthMetres > wallMetres
      ? [
          bodyFault(
            '/clearWidthMetres',
            `the exit is ${clearWidthMetres} m wide, its wall only ${wallMetres} m long`,
          ),
        ]
      : []
  }
  const longest = longestWall(exit, setup)
  return longest !== null && clearWidthMetres > longest.metres
    ? [
        bodyFault(
          '/clearWidthMetres',
          `the exit is ${clearWidthMetres} m wide, the longest wall of ${longest.roomName} only ${longest.metres} m`,
        ),
      ]
    : []
}

/** Of all floors over its section; null: none of them is known. */
function longestWall(exit: Exit, { rooms }: SiteSetup): { metres: number; roomName: string } | null {
  let longest: { metres: number; roomName: string } | null = null
  for (const room of rooms) {
    if (room.floor === null || !room.sectionIds.includes(exit.sectionId)) continue
    const metres = Math.max(...polygonSides(floorOutline(room.floor)).map(sideLengthMetres))
    if (longest === null || metres > longest.metres) {
      longest = { metres: Math.round(metres * 1000) / 1000, roomName: room.name }
    }
  }
  return longest
}
