/** What can be wrong with a room beyond its shape. */
import type { Room } from '../../domain/room.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { containsPolygon, fixedOutline, floorOutline, polygonArea } from '../../scheduler/geometry/index.ts'
import { repeated, unknownIds } from '../known-ids.ts'
import { bodyFault, type Fault } from '../problems.ts'
import { openingFaults } from './opening-faults.ts'
import { outlineFaults } from './outline-faults.ts'

export function roomFaults(room: Room, setup: SiteSetup): Fault[] {
  const at = (index: number) => `/sectionIds/${index}`
  return [
    ...unknownIds(at, room.sectionIds, setup.sections, 'section', setup.retired.sections),
    ...repeated(at, room.sectionIds, 'section'),
    ...homeLayoutFaults(room, setup),
    ...openingFaults(room.openingHours ?? []),
    ...floorFaults(room),
    ...fixedThingFaults(room),
    ...parkingFaults(room, setup),
    ...acousticFaults(room, setup),
  ]
}

function homeLayoutFaults(room: Room, setup: SiteSetup): Fault[] {
  const { homeLayoutId } = room
  if (homeLayoutId === null) return []
  const layout = setup.layouts.find(({ id }) => id === homeLayoutId)
  if (!layout) {
    return unknownIds(() => '/homeLayoutId', [homeLayoutId], setup.layouts, 'layout', setup.retired.layouts)
  }
  return layout.roomId === room.id
    ? []
    : [
        bodyFault(
          '/homeLayoutId',
          `layout ${layout.name} is of another room; the home layout must be of this one`,
        ),
      ]
}

function floorFaults({ floor, zones }: Room): Fault[] {
  const floorItself =
    floor?.kind === 'polygon' ? outlineFaults('/floor/corners', floor.corners, 'the floor') : []
  const zoneNames = zones.map(({ name }) => name)
  return [
    ...floorItself,
    ...repeated((index) => `/zones/${index}/name`, zoneNames, 'zone'),
    ...zones.flatMap(({ name, corners }, index) => {
      const at = `/zones/${index}/corners`
      const zoneItself = outlineFaults(at, corners, `zone ${name}`)
      // Within what? That is only known of outlines that are right.
      if (floor === null || floorItself.length > 0 || zoneItself.length > 0) return zoneItself
      return containsPolygon(floorOutline(floor), corners)
        ? []
        : [bodyFault(at, `zone ${name} is not within the floor of the room`)]
    }),
  ]
}

function fixedThingFaults({ floor, fixedThings }: Room): Fault[] {
  const names = fixedThings.map(({ name }) => name)
  const floorItself = floor?.kind === 'polygon' ? outlineFaults('/floor/corners', floor.corners, '') : []
  return [
    ...repeated((index) => `/fixedThings/${index}/name`, names, 'fixed thing'),
    ...fixedThings.flatMap(({ name, outline }, index) => {
      const at = `/fixedThings/${index}/outline`
      const corners = fixedOutline(outline)
      const itself =
        outline.kind === 'polygon' ? outlineFaults(`${at}/corners`, corners, `fixed thing ${name}`) : []
      if (floor === null || floorItself.length > 0 || itself.length > 0) return itself
      return containsPolygon(floorOutline(floor), corners)
        ? []
        : [bodyFault(at, `fixed thing ${name} is not within the floor of the room`)]
    }),
  ]
}

/** What the room is known to have: its own floor, or the sum of its sections. */
function floorAreaSquareMetres({ floor, sectionIds }: Room, { sections }: SiteSetup): number {
  if (floor) return polygonArea(floorOutline(floor))
  const own = sections.filter(({ id }) => sectionIds.includes(id))
  return own.reduce((sum, { areaSquareMetres }) => sum + areaSquareMetres, 0)
}

function parkingFaults(room: Room, setup: SiteSetup): Fault[] {
  const floorSquareMetres = floorAreaSquareMetres(room, setup)
  const names = room.parking.map(({ name }) => name)
  return [
    ...repeated((index) => `/parking/${index}/name`, names, 'parking place'),
    ...room.parking.flatMap(({ name, areaSquareMetres }, index) =>
      floorSquareMetres > 0 && areaSquareMetres > floorSquareMetres
        ? [
            bodyFault(
              `/parking/${index}/areaSquareMetres`,
              `parking place ${name} takes ${areaSquareMetres} m², and the whole floor has ${rounded(floorSquareMetres)} m²`,
            ),
          ]
        : [],
    ),
  ]
}

function acousticFaults(room: Room, setup: SiteSetup): Fault[] {
  const at = (index: number) => `/acousticallyJoinedRoomIds/${index}`
  const ids = room.acousticallyJoinedRoomIds
  const self = ids.indexOf(room.id)
  return [
    ...(self < 0 ? [] : [bodyFault(at(self), 'a room hears itself anyway; leave it out')]),
    ...unknownIds(at, ids, [...setup.rooms, room], 'room', setup.retired.rooms),
    ...repeated(at, ids, 'room'),
  ]
}

const rounded = (squareMetres: number): number => Math.round(squareMetres * 10) / 10
