/** What can be wrong with an exit beyond its shape. */
import type { Exit } from '../../domain/exit.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { floorOutline, polygonSides, sideLengthMetres } from '../../scheduler/geometry/index.ts'
import { unknownIds } from '../known-ids.ts'
import { bodyFault, type Fault } from '../problems.ts'

export const exitFaults = (exit: Exit, setup: SiteSetup): Fault[] => [
  ...unknownIds(() => '/sectionId', [exit.sectionId], setup.sections, 'section', setup.retired.sections),
  ...widthFaults(exit, setup),
]

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
