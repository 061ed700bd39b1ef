/** One valid row of every kind of the set-up, no larger than it must be, to be added to the hall of `a-world.ts`. */
import { CleaningMethod } from '../../src/domain/cleaning-method.ts'
import { FurnishingKind } from '../../src/domain/furnishing.ts'
import { FloorKind } from '../../src/domain/section.ts'
import type { SetupKind, SetupWrite } from '../../src/domain/setup.ts'
import { addition, aPolicy, at, hours } from './a-world.ts'

const ofEach = (words: readonly string[], value: unknown) =>
  Object.fromEntries(words.map((word) => [word, value]))

export const aRateSet = (id: string, number: number) =>
  addition('rateSet', {
    id,
    number,
    name: `Rates ${number}`,
    rates: {
      fromTrolley: ofEach(FurnishingKind.options, { setPersonSeconds: 10, strikePersonSeconds: 8 }),
      byHand: ofEach(FurnishingKind.options, { setPersonSeconds: 20, strikePersonSeconds: 16 }),
      piecesPerCarry: ofEach(FurnishingKind.options, 2),
      storedAreaSquareMetres: ofEach(FurnishingKind.options, 0.5),
      cleaningPersonSecondsPerSquareMetre: ofEach(CleaningMethod.options, 2),
      dryingSeconds: ofEach(
        FloorKind.options.filter((kind) => kind !== 'carpet'),
        600,
      ),
      walkingMetresPerSecond: 1.2,
      carryingMetresPerSecond: 1,
      loadedTrolleyMetresPerSecond: 0.8,
      trolleyHandlingSeconds: 30,
      shortCarryMetres: 6,
      routeUnknownMetres: 20,
      markOutPersonSecondsPerPiece: 15,
      alignPersonSecondsPerChair: 1,
      wipeTablePersonSeconds: 40,
      binPersonSeconds: 120,
      walkthroughModes: [{ hands: 1, seconds: 300 }],
      signOffModes: [{ hands: 1, seconds: 300 }],
    },
    marks: {},
  })

export const anObservation = (word: string, seenAtHours: number, room = 'east', rest: object = {}) =>
  addition('observation', {
    id: `observation_${word}`,
    roomId: `room_${room}`,
    seenAt: at(seenAtHours),
    pieces: [],
    ...rest,
  })

export const oneOfEach: { readonly [Kind in SetupKind]: SetupWrite } = {
  section: addition('section', {
    id: 'section_foyer',
    name: 'Foyer',
    areaSquareMetres: 40,
    floorKind: 'tile',
  }),
  exit: addition('exit', {
    id: 'exit_street',
    name: 'Street doors',
    sectionId: 'section_east',
    clearWidthMetres: 1.8,
  }),
  passage: addition('passage', { id: 'passage_back', name: 'Back doorway', kind: 'doorway' }),
  room: addition('room', {
    id: 'room_attic',
    name: 'Attic',
    sectionIds: ['section_west'],
    occupantLimitPosted: null,
    homeLayoutId: null,
    openingHours: null,
  }),
  storagePlace: addition('storagePlace', { id: 'storage_stage', name: 'Under the stage', routes: [] }),
  furnishing: addition('furnishing', {
    id: 'furnishing_table',
    name: 'round table',
    namePlural: 'round tables',
    kind: 'round-table',
    countOwned: 18,
    massKilograms: 24,
    storagePlaceId: 'storage_back',
    method: 'roll',
    handsPerPiece: 1,
    setPersonSeconds: null,
    strikePersonSeconds: null,
    trolley: null,
  }),
  tool: addition('tool', { id: 'tool_mop', name: 'mop', namePlural: 'mops', countOwned: 2 }),
  equipment: addition('equipment', {
    id: 'equipment_screen',
    name: 'Screen',
    sectionIds: ['section_east'],
    control: { kind: 'states', states: ['up'], homeState: 'up', transitions: [] },
  }),
  layout: addition('layout', {
    id: 'layout_east-bare',
    roomId: 'room_east',
    name: 'Bare',
    kind: 'other',
    seats: null,
    furnishings: [],
    equipment: [],
  }),
  person: addition('person', { id: 'person_robin', adult: true, skills: [] }),
  shift: addition('shift', {
    id: 'shift_wren',
    name: 'Wren',
    crew: { kind: 'person', personId: 'person_wren' },
    times: { kind: 'once', startsAt: at(0), endsAt: at(4) },
  }),
  closure: addition('closure', {
    id: 'closure_floor',
    sectionIds: ['section_east'],
    ...hours(5, 9),
    reason: 'Floor is sealed',
  }),
  stockChange: addition('stockChange', {
    id: 'stockchange_lent',
    of: { kind: 'furnishing', furnishingId: 'furnishing_chair', count: 40 },
    why: 'lent-out',
    fromAt: at(0),
    toAt: null,
  }),
  observation: anObservation('monday', 0),
  rateSet: aRateSet('rateset_first', 1),
  policy: aPolicy('policy_second'),
}

/** Something else that each row could say. */
export const otherwise: { readonly [Kind in SetupKind]: object } = {
  section: { areaSquareMetres: 45 },
  exit: { sectionId: 'section_west' },
  passage: { trolleysAtOnce: 2 },
  room: { sectionIds: ['section_east', 'section_west'] },
  storagePlace: { areaSquareMetres: 12 },
  furnishing: { storagePlaceId: 'storage_back', countOwned: 20 },
  tool: { countOwned: 3 },
  equipment: { name: 'Large screen' },
  layout: { seats: 80 },
  person: { skills: ['sound'] },
  shift: { crew: { kind: 'hands', hands: 2, skills: [], adults: true } },
  closure: { ...hours(6, 12) },
  stockChange: { of: { kind: 'equipment', equipmentId: 'equipment_lights' }, why: 'out-of-service' },
  observation: { roomId: 'room_west', seenAt: at(1) },
  rateSet: { name: 'Rates as timed' },
  policy: { paceFactor: 1.2 },
}
