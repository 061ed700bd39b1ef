/** An invented hall of 214 m² with its stock, and inputs of turns in it: name only what matters to the test. */
import type { Equipment, EquipmentSetting } from '../../../src/domain/equipment.ts'
import { Equipment as EquipmentSchema } from '../../../src/domain/equipment.ts'
import { Furnishing } from '../../../src/domain/furnishing.ts'
import type { Layout } from '../../../src/domain/layout.ts'
import { Layout as LayoutSchema } from '../../../src/domain/layout.ts'
import type { LayoutKind } from '../../../src/domain/layout-kind.ts'
import { Policy } from '../../../src/domain/policy.ts'
import { Room } from '../../../src/domain/room.ts'
import { StoragePlace } from '../../../src/domain/storage-place.ts'
import { DEFAULT_RATES } from '../../../src/scheduler/network/default-rates.ts'
import type { NetworkInput, StandingPieces } from '../../../src/scheduler/network/network-input.ts'

const siteId = 'site_elm-court'

export const hall = Room.parse({
  id: 'room_hall',
  siteId,
  name: 'Garden Hall',
  sectionIds: ['section_hall'],
  occupantLimitPosted: 200,
  homeLayoutId: null,
  openingHours: null,
})

export const northStore = StoragePlace.parse({
  id: 'storage_north',
  siteId,
  name: 'North store',
  routes: [{ roomId: hall.id, distanceMetres: 25 }],
})

type FurnishingOverrides = Partial<ReturnType<typeof Furnishing.parse>>

/** Handled by the default rates of its kind; no trolley. */
export function aFurnishing(
  name: string,
  namePlural: string,
  overrides: FurnishingOverrides = {},
): Furnishing {
  return Furnishing.parse({
    id: `furnishing_${name.replaceAll(' ', '-')}`,
    siteId,
    name,
    namePlural,
    kind: 'other',
    countOwned: 200,
    massKilograms: 10,
    storagePlaceId: northStore.id,
    method: 'carry',
    handsPerPiece: 1,
    setPersonSeconds: null,
    strikePersonSeconds: null,
    trolley: null,
    ...overrides,
  })
}

export const chair = aFurnishing('stacking chair', 'stacking chairs', {
  kind: 'stacking-chair',
  massKilograms: 6,
  method: 'trolley',
  trolley: { capacityPieces: 25, countOwned: 4 },
})
export const roundTable = aFurnishing('round table', 'round tables', {
  kind: 'round-table',
  massKilograms: 28,
  method: 'trolley',
  handsPerPiece: 2,
  trolley: { capacityPieces: 9, countOwned: 2 },
})
export const tableCloth = aFurnishing('table cloth', 'table cloths', {
  kind: 'table-cloth',
  massKilograms: 1,
})
export const postPair = aFurnishing('post pair', 'post pairs', {
  kind: 'post-pair',
  massKilograms: 40,
  handsPerPiece: 2,
})
export const stageDeck = aFurnishing('stage deck', 'stage decks', {
  kind: 'stage-deck',
  massKilograms: 60,
  handsPerPiece: 2,
})
export const furnishings = [chair, roundTable, tableCloth, postPair, stageDeck]

/** Down in 40 s and up in 40 s, by itself. */
export const screen: Equipment = EquipmentSchema.parse({
  id: 'equipment_screen',
  siteId,
  name: 'Screen',
  sectionIds: ['section_hall'],
  control: {
    kind: 'states',
    states: ['up', 'down'],
    homeState: 'up',
    transitions: [
      { from: 'up', to: 'down', seconds: 40, hands: 0, skill: null, needsFloorClear: false },
      { from: 'down', to: 'up', seconds: 40, hands: 0, skill: null, needsFloorClear: false },
    ],
  },
})

/** Shows the feed of the large room; somebody who knows the system patches it. */
export const videoFeed: Equipment = EquipmentSchema.parse({
  id: 'equipment_video-feed',
  siteId,
  name: 'Video feed',
  sectionIds: ['section_hall'],
  control: {
    kind: 'states',
    states: ['off', 'standby', 'live'],
    homeState: 'off',
    transitions: [
      { from: 'off', to: 'standby', seconds: 90, hands: 0, skill: null, needsFloorClear: false },
      { from: 'standby', to: 'live', seconds: 120, hands: 1, skill: 'video', needsFloorClear: false },
      { from: 'live', to: 'off', seconds: 60, hands: 1, skill: 'video', needsFloorClear: false },
    ],
  },
})

/** Off or on, tried out before every use in quiet, warm after a minute. */
export const soundSystem: Equipment = EquipmentSchema.parse({
  id: 'equipment_sound',
  siteId,
  name: 'Sound system',
  kind: 'sound',
  sectionIds: ['section_hall'],
  warmUpSeconds: 60,
  readinessCheck: { what: 'sound check', seconds: 900, hands: 1, skill: 'sound', needsQuiet: true },
  control: {
    kind: 'states',
    states: ['off', 'on'],
    homeState: 'off',
    transitions: [
      { from: 'off', to: 'on', seconds: 120, hands: 1, skill: 'sound', needsFloorClear: false },
      { from: 'on', to: 'off', seconds: 60, hands: 1, skill: null, needsFloorClear: false },
    ],
  },
})

/** Divides the hall; moved by two on a clear floor. */
export const foldingWall: Equipment = EquipmentSchema.parse({
  id: 'equipment_folding-wall',
  siteId,
  name: 'Folding wall',
  kind: 'movable-wall',
  sectionIds: ['section_hall'],
  control: {
    kind: 'states',
    states: ['stacked', 'closed'],
    homeState: 'stacked',
    transitions: [
      { from: 'stacked', to: 'closed', seconds: 300, hands: 2, skill: null, needsFloorClear: true },
      { from: 'closed', to: 'stacked', seconds: 300, hands: 2, skill: null, needsFloorClear: true },
    ],
  },
})

/** Off, or 10 to 100 %: nothing below 10 % is stable. */
export const houseLights: Equipment = EquipmentSchema.parse({
  id: 'equipment_house-lights',
  siteId,
  name: 'House lights',
  sectionIds: ['section_hall'],
  control: {
    kind: 'level',
    lowestPercent: 10,
    highestPercent: 100,
    canBeOff: true,
    homeSetting: { kind: 'level', levelPercent: 100 },
    setSeconds: 20,
    hands: 1,
    skill: null,
  },
})

export const inState = (equipment: Equipment, state: string) => ({
  equipment,
  setting: { kind: 'state', state } satisfies EquipmentSetting,
})

const boundaries = { doorsBeforeStartSeconds: 1800, clearAfterEndSeconds: 1800 }
const kinds: readonly LayoutKind[] = ['worship', 'banquet', 'games', 'overflow', 'meeting', 'other']
const forEachKind = <Value>(value: Value) => Object.fromEntries(kinds.map((kind) => [kind, value]))

export function aPolicy(overrides: Partial<Policy> = {}): Policy {
  return Policy.parse({
    id: 'policy_elm-court',
    siteId,
    boundaries: forEachKind(boundaries),
    paceFactor: 1.5,
    allowanceShare: 0.15,
    effectiveHands: [
      { hands: 2, effective: 2 },
      { hands: 4, effective: 3.7 },
      { hands: 6, effective: 5.2 },
      { hands: 8, effective: 6.4 },
      { hands: 12, effective: 8 },
    ],
    briefingSeconds: 300,
    slackWantedSeconds: 900,
    walkBetweenRoomsSeconds: 60,
    zoneSquareMetres: 100,
    cleaning: forEachKind(['dust-mop']),
    workMost: 200,
    ...overrides,
  })
}

export const pieces = (furnishing: Furnishing, count: number): StandingPieces => ({
  furnishingId: furnishing.id,
  count,
})

export function aLayout(kind: LayoutKind, overrides: Partial<Layout> = {}): Layout {
  return LayoutSchema.parse({
    id: `layout_${kind}`,
    siteId,
    roomId: hall.id,
    name: kind,
    kind,
    seats: null,
    furnishings: [],
    equipment: [],
    ...overrides,
  })
}

/** 2 post pairs, 20 chairs along the wall. */
export const games = aLayout('games', { furnishings: [pieces(postPair, 2), pieces(chair, 20)] })
/** 15 round tables with cloths, 120 seats. */
export const banquet = aLayout('banquet', {
  seats: 120,
  furnishings: [pieces(roundTable, 15), pieces(chair, 120), pieces(tableCloth, 15)],
})
/** 160 chairs in rows before a stage of 6 decks. */
export const worship = aLayout('worship', {
  seats: 160,
  furnishings: [pieces(chair, 160), pieces(stageDeck, 6)],
})
/** 180 chairs before the screen, which shows the large room. */
export const overflow = aLayout('overflow', {
  seats: 180,
  furnishings: [pieces(chair, 180)],
  equipment: [
    { equipmentId: screen.id, setting: { kind: 'state', state: 'down' } },
    { equipmentId: videoFeed.id, setting: { kind: 'state', state: 'live' } },
  ],
})

/** A bare hall that stays bare, with nobody there before. */
export function aNetworkInput(overrides: Partial<NetworkInput> = {}): NetworkInput {
  return {
    room: hall,
    areaSquareMetres: 214,
    floorKinds: ['vinyl'],
    acousticallyJoinedRoomIds: [],
    units: 'metric',
    standing: [],
    standingKind: null,
    placementsFrom: null,
    toLayout: aLayout('other'),
    outgoing: null,
    equipmentFrom: [],
    furnishings,
    storagePlaces: [northStore],
    passages: [],
    tools: [],
    policy: aPolicy(),
    rates: DEFAULT_RATES,
    rateMarks: {},
    sameLayout: false,
    ...overrides,
  }
}

/** From one layout, used and left standing, to another. */
export function aTurn(from: Layout, to: Layout, overrides: Partial<NetworkInput> = {}): NetworkInput {
  return aNetworkInput({
    standing: from.furnishings,
    standingKind: from.kind,
    outgoing: { kind: from.kind, foodServed: false, floorWet: false, headcount: 0 },
    toLayout: to,
    sameLayout: from.id === to.id,
    ...overrides,
  })
}
