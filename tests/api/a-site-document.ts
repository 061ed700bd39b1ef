/** A whole site as it is exported, with every kind of row and every field that may be left out filled in. */
import { DEFAULT_RATES } from '../../src/scheduler/network/index.ts'

export interface DocumentRow {
  id: string
  [field: string]: unknown
}
export interface ADocument {
  format: string
  formatVersion: unknown
  exportedAt?: string
  leftOut?: string[]
  site: DocumentRow
  sections: DocumentRow[]
  exits: DocumentRow[]
  passages: DocumentRow[]
  rooms: DocumentRow[]
  storagePlaces: DocumentRow[]
  furnishings: DocumentRow[]
  tools: DocumentRow[]
  equipment: DocumentRow[]
  layouts: DocumentRow[]
  people: DocumentRow[]
  personDetails: { personId: string; [field: string]: unknown }[]
  shifts: DocumentRow[]
  closures: DocumentRow[]
  stockChanges: DocumentRow[]
  observations: DocumentRow[]
  rateSet: DocumentRow | null
  policy: DocumentRow
}

const boundary = { doorsBeforeStartSeconds: 1800, clearAfterEndSeconds: 1200 }
const kinds = ['worship', 'banquet', 'games', 'overflow', 'meeting', 'other']
const forEachKind = (value: unknown) => Object.fromEntries(kinds.map((kind) => [kind, value]))

const policy = (id: string): DocumentRow => ({
  id,
  boundaries: forEachKind(boundary),
  paceFactor: 1.4,
  allowanceShare: 0.12,
  effectiveHands: [
    { hands: 1, effective: 1 },
    { hands: 4, effective: 3.6 },
  ],
  briefingSeconds: 240,
  slackWantedSeconds: 600,
  walkBetweenRoomsSeconds: 90,
  zoneSquareMetres: 80,
  cleaning: forEachKind(['sweep', 'spot-mop']),
  minorMassLimitKilograms: 8.5,
  adultOnlySkills: ['lift-operator'],
  binsPerHundredGuests: 3,
  planningHands: 2,
  paidPersonSecondsMost: 72_000,
  justInTimeFromGapSeconds: 43_200,
  returnHomeAfterSeconds: 86_400,
  replanTurnsMost: 12,
  workMost: 40,
})

/** Ids end in the suffix, so that several of them can live in one database. */
export const aSiteDocument = (suffix = 'a'): ADocument => {
  const id = (prefix: string, name: string) => `${prefix}_${name}-${suffix}`
  const north = id('section', 'north')
  const south = id('section', 'south')
  const hall = id('room', 'hall')
  const parlour = id('room', 'parlour')
  const door = id('passage', 'door')
  const lift = id('passage', 'lift')
  const yard = id('storage', 'yard')
  const chair = id('furnishing', 'chair')
  const table = id('furnishing', 'table')
  const mop = id('tool', 'mop')
  const house = id('equipment', 'house')
  const screen = id('equipment', 'screen')
  const spare = id('equipment', 'spare')
  const banquet = id('layout', 'banquet')
  const exit = id('exit', 'east')
  const off = { kind: 'off' }
  const document: ADocument = {
    format: 'turnwright-site',
    formatVersion: 1,
    exportedAt: '2026-11-23T09:00:00-06:00',
    leftOut: [],
    site: {
      id: id('site', 'alder'),
      name: 'Alder Row',
      zone: 'America/Chicago',
      units: 'us',
      codeTables: 'uk',
    },
    sections: [
      { id: north, name: 'Hall, north', areaSquareMetres: 107.5, floorKind: 'sealed-wood' },
      { id: south, name: 'Hall, south', areaSquareMetres: 60, floorKind: 'carpet' },
    ],
    exits: [
      {
        id: exit,
        name: 'East doors',
        sectionId: north,
        clearWidthMetres: 1.8,
        wallMetres: 9,
        opensOutward: true,
        panicHardware: false,
        stepFree: true,
        position: { xMetres: -0.5, yMetres: 4 },
      },
    ],
    passages: [
      {
        id: door,
        name: 'Yard door',
        kind: 'doorway',
        trolleysAtOnce: 2,
        clearWidthMetres: 1.6,
        rideSeconds: 0,
        loadLimitKilograms: null,
      },
      {
        id: lift,
        name: 'Goods lift',
        kind: 'lift',
        trolleysAtOnce: 1,
        clearWidthMetres: 1.2,
        rideSeconds: 45,
        loadLimitKilograms: 900,
      },
    ],
    rooms: [
      {
        id: hall,
        name: 'Long Hall',
        sectionIds: [north, south],
        occupantLimitPosted: 220,
        homeLayoutId: banquet,
        openingHours: [{ weekdays: [1, 2, 6], opensLocal: '07:00', closesLocal: '01:00' }],
        floor: {
          kind: 'polygon',
          corners: [
            { xMetres: 0, yMetres: 0 },
            { xMetres: 20, yMetres: 0 },
            { xMetres: 20, yMetres: 9 },
            { xMetres: 0, yMetres: 9 },
          ],
        },
        zones: [
          {
            name: 'Stage end',
            corners: [
              { xMetres: 0, yMetres: 0 },
              { xMetres: 5, yMetres: 0 },
              { xMetres: 5, yMetres: 9 },
            ],
          },
        ],
        fixedThings: [
          {
            name: 'Stage',
            outline: { kind: 'rectangle', xMetres: 0, yMetres: 2, widthMetres: 3, depthMetres: 5 },
            piecesMayStandOn: true,
          },
          {
            name: 'Column',
            outline: {
              kind: 'polygon',
              corners: [
                { xMetres: 10, yMetres: 4 },
                { xMetres: 10.5, yMetres: 4 },
                { xMetres: 10.25, yMetres: 4.5 },
              ],
            },
            piecesMayStandOn: false,
          },
        ],
        parking: [{ name: 'West wall', areaSquareMetres: 12 }],
        acousticallyJoinedRoomIds: [parlour],
        sprinklersAndVoiceAlarm: true,
      },
      {
        id: parlour,
        name: 'Parlour',
        sectionIds: [south],
        occupantLimitPosted: null,
        homeLayoutId: null,
        openingHours: null,
        floor: { kind: 'rectangle', widthMetres: 10, depthMetres: 6 },
        zones: [],
        fixedThings: [],
        parking: [],
        acousticallyJoinedRoomIds: [],
        sprinklersAndVoiceAlarm: false,
      },
    ],
    storagePlaces: [
      {
        id: yard,
        name: 'Yard store',
        routes: [
          {
            roomId: hall,
            distanceMetres: 25,
            passageIds: [door, lift],
            doorAt: { xMetres: 20, yMetres: 4.5 },
          },
          { roomId: parlour, distanceMetres: 31.5, passageIds: [], doorAt: null },
        ],
        areaSquareMetres: 40,
        limits: [{ furnishingId: table, countMost: 18 }],
        depthOrder: [chair, table],
      },
    ],
    furnishings: [
      {
        id: chair,
        name: 'stacking chair',
        namePlural: 'stacking chairs',
        kind: 'stacking-chair',
        countOwned: 240,
        massKilograms: 6,
        storagePlaceId: yard,
        method: 'trolley',
        handsPerPiece: 1,
        setPersonSeconds: 11,
        strikePersonSeconds: 9.5,
        trolley: { capacityPieces: 25, countOwned: 4 },
        widthMetres: 0.5,
        depthMetres: 0.55,
        storedAreaSquareMetres: 0.05,
        seatsPerPiece: 1,
        lift: {
          horizontalCentimetres: 30,
          originHeightCentimetres: 40,
          destinationHeightCentimetres: 90,
          asymmetryDegrees: 45,
          coupling: 'good',
          liftsPerMinute: 4,
        },
        adultsOnly: false,
      },
      {
        id: table,
        name: 'round table',
        namePlural: 'round tables',
        kind: 'round-table',
        countOwned: 15,
        massKilograms: 27,
        storagePlaceId: yard,
        method: 'roll',
        handsPerPiece: 2,
        setPersonSeconds: null,
        strikePersonSeconds: null,
        trolley: null,
        widthMetres: 1.52,
        depthMetres: 1.52,
        storedAreaSquareMetres: null,
        seatsPerPiece: 8,
        lift: null,
        adultsOnly: true,
      },
    ],
    tools: [
      {
        id: mop,
        name: 'dust mop',
        namePlural: 'dust mops',
        countOwned: 3,
        cleaningMethods: ['dust-mop', 'sweep'],
        furnishingIds: [table],
      },
    ],
    equipment: [
      {
        id: house,
        name: 'House lights',
        sectionIds: [north, south],
        control: {
          kind: 'level',
          lowestPercent: 10,
          highestPercent: 100,
          canBeOff: true,
          homeSetting: { kind: 'level', levelPercent: 80 },
          setSeconds: 30,
          hands: 1,
          skill: 'lights',
        },
        kind: 'lighting',
        protections: [],
        standInIds: [],
        readinessCheck: null,
        warmUpSeconds: 240,
        restrikeSeconds: 900,
      },
      {
        id: screen,
        name: 'Screen',
        sectionIds: [north],
        control: {
          kind: 'states',
          states: ['up', 'down'],
          homeState: 'up',
          transitions: [
            {
              from: 'up',
              to: 'down',
              seconds: 40,
              hands: 1,
              skill: 'sound',
              needsFloorClear: true,
              needsQuiet: true,
              needsDark: true,
              needsWallOpen: false,
              needsGuestsOut: false,
            },
            {
              from: 'down',
              to: 'up',
              seconds: 40,
              hands: 0,
              skill: null,
              needsFloorClear: false,
              needsQuiet: false,
              needsDark: false,
              needsWallOpen: false,
              needsGuestsOut: true,
            },
          ],
        },
        kind: 'screen',
        protections: [{ during: ['games'], setting: { kind: 'state', state: 'up' } }],
        standInIds: [spare],
        readinessCheck: {
          what: 'picture check',
          seconds: 120,
          hands: 1,
          skill: 'sound',
          needsQuiet: true,
          needsDark: true,
        },
        warmUpSeconds: 0,
        restrikeSeconds: 0,
      },
      {
        id: spare,
        name: 'Spare screen',
        sectionIds: [north],
        control: {
          kind: 'level',
          lowestPercent: 100,
          highestPercent: 100,
          canBeOff: true,
          homeSetting: off,
          setSeconds: 60,
          hands: 2,
          skill: null,
        },
        kind: 'screen',
        protections: [{ during: ['games', 'other'], setting: off }],
        standInIds: [],
        readinessCheck: null,
        warmUpSeconds: 0,
        restrikeSeconds: 0,
      },
    ],
    layouts: [
      {
        id: banquet,
        roomId: hall,
        name: 'Supper',
        kind: 'banquet',
        seats: 16,
        furnishings: [
          { furnishingId: table, count: 2 },
          { furnishingId: chair, count: 16 },
        ],
        equipment: [
          { equipmentId: house, setting: { kind: 'level', levelPercent: 62.5 } },
          { equipmentId: screen, setting: { kind: 'state', state: 'down' } },
          { equipmentId: spare, setting: off },
        ],
        placements: [
          { furnishingId: table, xMetres: 8, yMetres: 3, rotationDegrees: 0 },
          { furnishingId: table, xMetres: 12, yMetres: 3, rotationDegrees: 22.5 },
        ],
        amplified: true,
      },
      {
        id: id('layout', 'games'),
        roomId: hall,
        name: 'Games floor',
        kind: 'games',
        seats: null,
        furnishings: [],
        equipment: [],
        placements: [],
        amplified: false,
      },
    ],
    people: [
      {
        id: id('person', 'ottoline'),
        adult: true,
        skills: ['lift-operator', 'sound'],
        skillDates: [
          { skill: 'lift-operator', firstDate: '2025-03-01', lastDate: '2028-02-29' },
          { skill: 'sound', firstDate: null, lastDate: null },
        ],
      },
      { id: id('person', 'wren'), adult: false, skills: [], skillDates: [] },
    ],
    personDetails: [
      {
        personId: id('person', 'ottoline'),
        name: 'Ottoline Reed',
        email: 'ottoline@alder.example',
        phone: '555 0100',
      },
    ],
    shifts: [
      {
        id: id('shift', 'crew'),
        name: 'Crew',
        crew: { kind: 'hands', hands: 4, skills: ['sound'], adults: true },
        paid: false,
        times: {
          kind: 'weekly',
          weekdays: [5, 6],
          startsLocal: '16:00',
          endsLocal: '01:30',
          firstDate: '2026-01-01',
          lastDate: '2027-12-31',
          exceptions: [
            { kind: 'off', date: '2026-12-25' },
            { kind: 'other-times', date: '2026-12-26', startsLocal: '18:00', endsLocal: '23:00' },
          ],
        },
      },
      {
        id: id('shift', 'once'),
        name: 'Ottoline, Sunday',
        crew: { kind: 'person', personId: id('person', 'ottoline') },
        paid: true,
        // The clocks go forward that night.
        times: {
          kind: 'once',
          startsAt: '2027-03-14T01:30:00-06:00',
          endsAt: '2027-03-14T09:00:00.250-05:00',
        },
      },
    ],
    closures: [
      {
        id: id('closure', 'paint'),
        sectionIds: [south],
        storagePlaceIds: [yard],
        passageIds: [lift],
        exitIds: [exit],
        fromAt: '2026-12-01T08:00:00-06:00',
        toAt: '2026-12-03T18:00:00-06:00',
        reason: 'Painting',
      },
    ],
    stockChanges: [
      {
        id: id('stockchange', 'chairs'),
        of: { kind: 'furnishing', furnishingId: chair, count: 12 },
        why: 'lent-out',
        fromAt: '2026-11-20T00:00:00-06:00',
        toAt: '2026-12-20T00:00:00-06:00',
        note: 'At the library',
      },
      {
        id: id('stockchange', 'mops'),
        of: { kind: 'tool', toolId: mop, count: 1 },
        why: 'out-of-service',
        fromAt: '2026-11-20T00:00:00-06:00',
        toAt: null,
        note: null,
      },
      {
        id: id('stockchange', 'screen'),
        of: { kind: 'equipment', equipmentId: screen },
        why: 'out-of-service',
        fromAt: '2027-01-04T00:00:00-06:00',
        toAt: '2027-01-06T00:00:00-06:00',
        note: 'New motor',
      },
    ],
    observations: [
      {
        id: id('observation', 'sunday'),
        roomId: hall,
        seenAt: '2026-11-22T21:30:00-06:00',
        pieces: [{ furnishingId: chair, count: 40 }],
        standsLike: 'worship',
        equipment: [{ equipmentId: house, setting: off }],
        note: 'Chairs left in rows',
      },
    ],
    rateSet: {
      id: id('rateset', 'second'),
      number: 2,
      name: 'After the autumn',
      rates: { ...DEFAULT_RATES, binPersonSeconds: 75 },
      marks: { binPersonSeconds: { origin: 'set', source: 'Timed by the crew, ten bins' } },
    },
    policy: policy(id('policy', 'first')),
  }
  // In every place a copy of its own: tests change them one by one.
  return JSON.parse(JSON.stringify(document))
}
