/** What can be wrong with where the pieces of a layout stand. */
import type { FloorPoint } from '../../domain/floor.ts'
import type { Furnishing } from '../../domain/furnishing.ts'
import type { Layout, Placement } from '../../domain/layout.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import {
  containsCircle,
  containsPoint,
  containsPolygon,
  floorOutline,
  pieceOutline,
} from '../../scheduler/geometry/index.ts'
import { bodyFault, type Fault } from '../problems.ts'

export const placementFaults = (layout: Layout, setup: SiteSetup): Fault[] => [
  ...countFaults(layout, setup),
  ...outsideFaults(layout, setup),
]

/** For each furnishing all of its pieces are placed, or none. */
function countFaults(layout: Layout, setup: SiteSetup): Fault[] {
  const countsAsked = new Map(layout.furnishings.map(({ furnishingId, count }) => [furnishingId, count]))
  const placed = new Map<string, { first: number; count: number }>()
  for (const [index, { furnishingId }] of layout.placements.entries()) {
    const soFar = placed.get(furnishingId)
    placed.set(furnishingId, { first: soFar?.first ?? index, count: (soFar?.count ?? 0) + 1 })
  }
  return [...placed].flatMap(([id, { first, count }]) => {
    const furnishing = setup.furnishings.find((one) => one.id === id)
    const asked = furnishing && countsAsked.get(furnishing.id)
    const at = `/placements/${first}/furnishingId`
    if (!furnishing || asked === undefined)
      return [
        bodyFault(
          at,
          `${furnishing?.namePlural ?? id} are placed, but not among the furnishings of the layout`,
        ),
      ]
    if (asked === count) return []
    const message = `${count} ${furnishing.namePlural} are placed and the layout asks for ${asked}: place all of them, or none`
    return [bodyFault(at, message)]
  })
}

function outsideFaults(layout: Layout, setup: SiteSetup): Fault[] {
  const room = setup.rooms.find(({ id }) => id === layout.roomId)
  if (!room?.floor) return []
  const floor = floorOutline(room.floor)
  const furnishingsById = new Map<string, Furnishing>(setup.furnishings.map((one) => [one.id, one]))
  return layout.placements.flatMap((placement, index) => {
    const furnishing = furnishingsById.get(placement.furnishingId)
    if (!furnishing || standsWithin(floor, placement, furnishing)) return []
    const { xMetres, yMetres } = placement
    const message = `the ${furnishing.name} at ${xMetres} m, ${yMetres} m is not wholly on the floor of ${room.name}`
    return [bodyFault(`/placements/${index}`, message)]
  })
}

/** Of a piece whose size is unknown only its middle can be told. */
function standsWithin(
  floor: readonly FloorPoint[],
  placement: Placement,
  { kind, widthMetres, depthMetres }: Furnishing,
): boolean {
  if (widthMetres === null || depthMetres === null) return containsPoint(floor, placement)
  return kind === 'round-table'
    ? containsCircle(floor, placement, widthMetres / 2)
    : containsPolygon(floor, pieceOutline(placement, widthMetres, depthMetres, placement.rotationDegrees))
}
