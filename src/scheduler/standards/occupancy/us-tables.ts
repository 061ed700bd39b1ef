/**
 * United States: International Building Code, section numbers of 2021 (assembly seating is 1030 there, 1029 in 2015 and
 * 2018, 1028 in 2009 and 2012). No code book was at hand: most rows were read in pages that quote it.
 */
import type { CodeTables, LoadFactor, UseOfLayout } from './code-tables.ts'
import { CROWD_MANAGER_RULES } from './crowd-manager-rules.ts'
import { metresFromFeet, millimetresFromInches, squareMetresFromSquareFeet } from './imperial-units.ts'
import type { SourceStatus } from './sourced.ts'

const LOAD_TABLE = 'IBC Table 1004.5 (1004.1.2 up to 2015)'

const factor = (
  people: string,
  squareFeet: number,
  basis: 'net' | 'gross',
  status: SourceStatus,
  note = '',
): LoadFactor => ({
  people,
  squareMetresPerPerson: squareMetresFromSquareFeet(squareFeet),
  basis,
  source: `${LOAD_TABLE}${note}`,
  status,
})

/** Which row of the load table fits a kind of layout is our reading, not the code's. */
const uses = (use: UseOfLayout['use']): UseOfLayout => ({
  use,
  source: 'the row of the load table that fits this kind of layout',
  status: 'common practice, no source',
})

export const US_TABLES: CodeTables = {
  locale: 'us',
  document: 'International Building Code',
  loadFactors: {
    standing: factor('people standing', 5, 'net', 'second-hand'),
    'rows-of-chairs': factor('people in rows of chairs', 7, 'net', 'second-hand'),
    'tables-and-chairs': factor('people at tables', 15, 'net', 'second-hand'),
    stage: factor('people on a stage or platform', 15, 'net', 'second-hand'),
    'exercise-floor': factor('people on a games floor', 50, 'gross', 'second-hand', ', exercise room'),
    classroom: factor('people in a classroom', 20, 'net', 'second-hand'),
    exhibition: factor('people at an exhibition', 30, 'net', 'from memory', ', 2018 edition on'),
    business: factor('people at work', 150, 'gross', 'second-hand', ', 100 ft² before 2018'),
    kitchen: factor('people in a kitchen', 200, 'gross', 'second-hand'),
    storage: factor('people in stores', 300, 'gross', 'second-hand'),
  },
  useOfLayout: {
    worship: uses('rows-of-chairs'),
    banquet: uses('tables-and-chairs'),
    games: uses('exercise-floor'),
    overflow: uses('rows-of-chairs'),
    meeting: uses('tables-and-chairs'),
    other: uses('rows-of-chairs'),
  },
  densestSquareMetresPerPerson: {
    value: squareMetresFromSquareFeet(7),
    source: 'IBC 1004.5.1 (1004.2 in older editions)',
    status: 'second-hand',
  },
  benchMillimetresPerPerson: {
    value: millimetresFromInches(18),
    source: 'IBC 1004.6',
    status: 'from memory',
  },
  exitCounts: [
    { peopleAtMost: 49, exits: 1, source: 'IBC Table 1006.2.1', status: 'second-hand' },
    { peopleAtMost: 500, exits: 2, source: 'IBC 1006.2.1 and Table 1006.3.3', status: 'from memory' },
    { peopleAtMost: 1000, exits: 3, source: 'IBC 1006.2.1.1 and Table 1006.3.3', status: 'second-hand' },
    { peopleAtMost: null, exits: 4, source: 'IBC 1006.2.1.1 and Table 1006.3.3', status: 'second-hand' },
  ],
  exitSeparation: {
    shareOfDiagonal: 1 / 2,
    shareOfDiagonalSprinklered: 1 / 3,
    source: 'IBC 1007.1.1',
    status: 'second-hand',
  },
  exitWidth: {
    level: {
      kind: 'per-person',
      millimetresPerPerson: millimetresFromInches(0.2),
      millimetresPerPersonReduced: millimetresFromInches(0.15),
      leastMillimetres: millimetresFromInches(32),
      smallBelowPeople: 0,
      leastMillimetresSmall: millimetresFromInches(32),
      source: 'IBC 1005.3.2, least width of a door 1010.1.1',
      status: 'second-hand',
    },
    stairs: {
      kind: 'per-person',
      millimetresPerPerson: millimetresFromInches(0.3),
      millimetresPerPersonReduced: millimetresFromInches(0.2),
      leastMillimetres: millimetresFromInches(44),
      smallBelowPeople: 50,
      leastMillimetresSmall: millimetresFromInches(36),
      source:
        'IBC 1005.3.1, least width of a stair 1011.2 (36 in under 50 people from memory, the rest second-hand)',
      status: 'from memory',
    },
  },
  sprinklerReductionTaken: true,
  lostExit: { kind: 'share-must-remain', share: 1 / 2, source: 'IBC 1005.5', status: 'from memory' },
  outwardSwingFromPeople: { value: 50, source: 'IBC 1010.1.2.1', status: 'from memory' },
  panicHardwareFromPeople: { value: 50, source: 'IBC 1010.2.9', status: 'second-hand' },
  travel: [
    {
      seatedInRows: false,
      peopleFewerThan: 50,
      oneWayMetres: metresFromFeet(75),
      withChoiceMetres: null,
      source: 'IBC 1030.8, exception (1028.8 in 2012)',
      status: 'second-hand',
    },
    {
      seatedInRows: false,
      peopleFewerThan: null,
      oneWayMetres: metresFromFeet(30),
      withChoiceMetres: null,
      source: 'IBC 1030.8 (1028.8 in 2012)',
      status: 'second-hand',
    },
  ],
  rows: {
    leastClearMillimetres: millimetresFromInches(12),
    mostClearMillimetres: millimetresFromInches(22),
    seatsMost: 100,
    bothEnds: { seatsFree: 14, millimetresPerSeatBeyond: millimetresFromInches(0.3) },
    oneEnd: {
      seatsFree: 7,
      seatsFreeWithoutBackrests: 10,
      millimetresPerSeatBeyond: millimetresFromInches(0.6),
    },
    source:
      'IBC 1030.13.2 to 1030.13.2.2 (2021; rows with an aisle at both ends from memory, the rest second-hand)',
    status: 'from memory',
  },
  aisles: {
    levelBothSides: {
      millimetres: millimetresFromInches(42),
      smallUpToSeats: 49,
      millimetresSmall: millimetresFromInches(36),
    },
    levelOneSide: {
      millimetres: millimetresFromInches(36),
      smallUpToSeats: 14,
      millimetresSmall: millimetresFromInches(30),
    },
    steppedBothSides: { millimetres: millimetresFromInches(48), smallUpToSeats: 0, millimetresSmall: 0 },
    steppedOneSide: { millimetres: millimetresFromInches(36), smallUpToSeats: 0, millimetresSmall: 0 },
    source: 'IBC 1030.9.1 (2021)',
    status: 'from memory',
  },
  looseChairs: {
    chairsFree: 200,
    joinedAtLeast: 3,
    source: 'IBC 1030.15 (1029.15 in 2018; that a number 3 stands there was read, Chicago makes it 5)',
    status: 'from memory',
  },
  tableAccessway: {
    leastMillimetres: millimetresFromInches(12),
    metresFree: metresFromFeet(12),
    millimetresPerFootBeyond: millimetresFromInches(0.5),
    nothingAskedUpToMetres: metresFromFeet(6),
    nothingAskedUpToPeople: 4,
    longestMetres: metresFromFeet(30),
    chairDepthMillimetres: millimetresFromInches(19),
    source: 'IBC 1030.13.1 to 1030.13.1.2 (2021)',
    status: 'from memory',
  },
  occupantLimit: {
    name: 'posted limit',
    setBy: 'the one posted in the room',
    source: 'the posted limit; IBC 1004.9 asks for one in every assembly room',
    status: 'from memory',
  },
  crowdManagers: CROWD_MANAGER_RULES['ifc-2018'],
  crowdManagersElsewhere: [CROWD_MANAGER_RULES['nfpa-101'], CROWD_MANAGER_RULES['new-york']],
}

/** New York City does not grant the smaller width with sprinklers; the state asks for crowd managers above 500 people. */
export const NEW_YORK_TABLES: CodeTables = {
  ...US_TABLES,
  document: 'International Building Code as adopted in New York',
  sprinklerReductionTaken: false,
  crowdManagers: CROWD_MANAGER_RULES['new-york'],
  crowdManagersElsewhere: [CROWD_MANAGER_RULES['nfpa-101']],
}
