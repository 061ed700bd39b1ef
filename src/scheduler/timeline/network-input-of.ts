/** What the task network of a room is made from, gathered from the set-up: only what can matter to that room. */
import type { Equipment, EquipmentSetting } from '../../domain/equipment.ts'
import type { HalfOpenInterval } from '../../domain/half-open-interval.ts'
import type { FurnishingId, RoomId } from '../../domain/ids.ts'
import type { Layout, Placement } from '../../domain/layout.ts'
import type { LayoutKind } from '../../domain/layout-kind.ts'
import type { Room } from '../../domain/room.ts'
import { DEFAULT_RATES, type NetworkInput, type OutgoingUse, type StandingPieces } from '../network/index.ts'
import { stockAt } from './stock-at.ts'
import { areaSquareMetres } from './what-stands.ts'
import { sharesSection, type World } from './world.ts'

/** What a turn starts from. */
export interface StartsFrom {
  readonly pieces: readonly StandingPieces[]
  readonly kind: LayoutKind | null
  readonly placements: readonly Placement[] | null
  /** The very layout that is wanted stands already. */
  readonly isWanted: boolean
  readonly settingOf: (equipment: Equipment) => EquipmentSetting
  readonly outgoing: OutgoingUse | null
}

/** @param span  when the work may be done: what is out of service then is not counted on */
export function networkInputOf(
  world: World,
  room: Room,
  toLayout: Layout,
  span: HalfOpenInterval,
  from: StartsFrom,
): NetworkInput {
  const { setup } = world
  const involved = new Set<FurnishingId>(
    [...from.pieces, ...toLayout.furnishings].map((one) => one.furnishingId),
  )
  const sections = setup.sections.filter((section) => room.sectionIds.includes(section.id))
  return {
    room,
    areaSquareMetres: areaSquareMetres(world, room),
    floorKinds: [...new Set(sections.map((section) => section.floorKind))].sort(),
    acousticallyJoinedRoomIds: joinedTo(room, setup.rooms),
    units: setup.site.units,
    standing: from.pieces,
    standingKind: from.kind,
    placementsFrom: from.placements,
    toLayout,
    outgoing: from.outgoing,
    equipmentFrom: setup.equipment
      .filter((equipment) => sharesSection(equipment, room))
      .map((equipment) => ({ equipment, setting: from.settingOf(equipment) })),
    ...piecesKnown(world, room, span, involved),
    tools: setup.tools.map((tool) => ({
      ...tool,
      countOwned: stockAt(
        tool.countOwned,
        setup.stockChanges,
        (of) => of.kind === 'tool' && of.toolId === tool.id,
        span,
      ),
    })),
    policy: setup.policy,
    rates: setup.rateSet?.rates ?? DEFAULT_RATES,
    rateMarks: setup.rateSet?.marks ?? {},
    sameLayout: from.isWanted,
  }
}

/** The same, with kinds of pieces that neither layout has. */
export const alsoKnowing = (
  world: World,
  input: NetworkInput,
  span: HalfOpenInterval,
  ids: readonly FurnishingId[],
): NetworkInput => ({
  ...input,
  ...piecesKnown(world, input.room, span, new Set([...input.furnishings.map(({ id }) => id), ...ids])),
})

/** Some kinds of pieces and what stands in front of them, their stores, and the ways from there to the room. */
function piecesKnown(
  world: World,
  room: Room,
  span: HalfOpenInterval,
  involved: ReadonlySet<FurnishingId>,
): Pick<NetworkInput, 'furnishings' | 'storagePlaces' | 'passages'> {
  const { setup } = world
  const storeIds = new Set([...involved].map((id) => world.furnishingsById.get(id)?.storagePlaceId))
  const storagePlaces = [...world.storagePlacesById.values()].filter(({ id }) => storeIds.has(id)).sort(byId)
  // Kinds that stand in front of what is needed are in the way, though nobody wants them.
  const inTheWay = storagePlaces.flatMap(({ depthOrder }) => depthOrder)
  const named = new Set<FurnishingId>([...involved, ...inTheWay])
  const furnishings = [...world.furnishingsById.values()]
    .filter(({ id }) => named.has(id))
    .sort(byId)
    .map((one) => ({
      ...one,
      countOwned: stockAt(
        one.countOwned,
        setup.stockChanges,
        (of) => of.kind === 'furnishing' && of.furnishingId === one.id,
        span,
      ),
    }))
  const passageIds = new Set(
    storagePlaces.flatMap(({ routes }) =>
      routes.filter(({ roomId }) => roomId === room.id).flatMap((route) => route.passageIds),
    ),
  )
  return {
    furnishings,
    // Only the route to this room matters here; others may come and go without touching the turn.
    storagePlaces: storagePlaces.map((place) => ({
      ...place,
      routes: place.routes.filter((route) => route.roomId === room.id),
    })),
    passages: setup.passages.filter(({ id }) => passageIds.has(id)),
  }
}

/** Rooms that hear this one, whichever side says so. */
const joinedTo = (room: Room, rooms: readonly Room[]): RoomId[] =>
  rooms
    .filter(
      ({ id, acousticallyJoinedRoomIds }) =>
        id !== room.id &&
        (acousticallyJoinedRoomIds.includes(room.id) || room.acousticallyJoinedRoomIds.includes(id)),
    )
    .map(({ id }) => id)

const byId = (a: { readonly id: string }, b: { readonly id: string }): number => (a.id < b.id ? -1 : 1)
