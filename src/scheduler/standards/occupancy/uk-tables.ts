/**
 * United Kingdom: Approved Document B, volume 2 (fire safety, buildings other than dwellings). Where it has no figure
 * here, such as for rows and aisles, the row is null.
 */
import type { CodeTables, LoadFactor, UseOfLayout } from './code-tables.ts'
import type { SourceStatus } from './sourced.ts'

const LOAD_TABLE = 'Approved Document B vol 2, Appendix D, Table D1 (C1 in older editions)'

const factor = (
  people: string,
  squareMetresPerPerson: number,
  status: SourceStatus,
  source = LOAD_TABLE,
): LoadFactor => ({ people, squareMetresPerPerson, basis: 'net', source, status })

/** Which row of the load table fits a kind of layout is our reading, not the document's. */
const uses = (use: UseOfLayout['use']): UseOfLayout => ({
  use,
  source: 'the row of the load table that fits this kind of layout',
  status: 'common practice, no source',
})

export const UK_TABLES: CodeTables = {
  locale: 'uk',
  document: 'Approved Document B, volume 2',
  loadFactors: {
    standing: factor('people standing', 0.3, 'second-hand'),
    'rows-of-chairs': factor('people in an assembly hall', 0.5, 'from memory'),
    'open-floor': factor('people on the open floor of a hall', 0.5, 'from memory'),
    queue: factor('people in a concourse or queue', 0.7, 'from memory'),
    'tables-and-chairs': factor('people at tables', 1.0, 'second-hand', `${LOAD_TABLE}, restaurant`),
    'meeting-room': factor('people in a meeting room', 1.0, 'from memory'),
    exhibition: factor('people at an exhibition', 1.5, 'from memory'),
  },
  useOfLayout: {
    worship: uses('rows-of-chairs'),
    banquet: uses('tables-and-chairs'),
    games: uses('open-floor'),
    overflow: uses('rows-of-chairs'),
    meeting: uses('meeting-room'),
    other: uses('rows-of-chairs'),
  },
  densestSquareMetresPerPerson: null,
  benchMillimetresPerPerson: {
    value: 450,
    source: 'Approved Document B vol 2 (a local authority takes 400 mm)',
    status: 'from memory',
  },
  exitCounts: [
    // "Fewer than 60": read so in an answer that compares it with BS 9999.
    {
      peopleAtMost: 59,
      exits: 1,
      source: 'Approved Document B vol 2, Tables 2.1 and 2.2; BS 9999',
      status: 'second-hand',
    },
    { peopleAtMost: 600, exits: 2, source: 'Approved Document B vol 2, Table 2.2', status: 'from memory' },
    { peopleAtMost: null, exits: 3, source: 'Approved Document B vol 2, Table 2.2', status: 'from memory' },
  ],
  exitSeparation: null,
  exitWidth: {
    level: {
      kind: 'steps',
      steps: [
        { peopleAtMost: 60, clearWidthMillimetres: 750 },
        { peopleAtMost: 110, clearWidthMillimetres: 850 },
        { peopleAtMost: 220, clearWidthMillimetres: 1050 },
      ],
      millimetresPerPersonBeyond: 5,
      source: 'Approved Document B vol 2, Table 2.3',
      status: 'from memory',
    },
    stairs: null,
  },
  sprinklerReductionTaken: false,
  lostExit: {
    kind: 'widest-left-out',
    share: 1,
    source: 'Approved Document B vol 2, discounting of exits',
    status: 'from memory',
  },
  outwardSwingFromPeople: {
    value: 61,
    source: 'Approved Document B vol 2, doors on escape routes (more than 60 people)',
    status: 'from memory',
  },
  panicHardwareFromPeople: null,
  travel: [
    {
      seatedInRows: true,
      peopleFewerThan: null,
      oneWayMetres: 15,
      withChoiceMetres: 32,
      source: 'Approved Document B vol 2, Table 2.1, seating in rows',
      status: 'from memory',
    },
    {
      seatedInRows: false,
      peopleFewerThan: null,
      oneWayMetres: 18,
      withChoiceMetres: 45,
      source: 'Approved Document B vol 2, Table 2.1',
      status: 'second-hand',
    },
  ],
  rows: null,
  aisles: null,
  looseChairs: null,
  tableAccessway: null,
  occupantLimit: {
    name: 'limit of the room',
    setBy: 'the one in its fire risk assessment or licence',
    source: 'the limit entered; the fire risk assessment of the room, or its licence, decides',
    status: 'from memory',
  },
  crowdManagers: null,
  crowdManagersElsewhere: [],
}

/**
 * A local authority's own floor areas, to be put in place of the rows above where that authority decides: its page
 * labels the unit upside down, these are square metres a person. Dining is given as 1.0 to 1.5: the smaller is the
 * one that exits must be planned for.
 */
const AUTHORITY = 'guidance of a local authority on maximum occupancy'
export const UK_AUTHORITY_LOAD_FACTORS: CodeTables['loadFactors'] = {
  standing: factor('people standing', 0.3, 'read', AUTHORITY),
  'rows-of-chairs': factor('people in a church', 0.5, 'read', AUTHORITY),
  'open-floor': factor('people on the open floor of a hall', 0.55, 'read', AUTHORITY),
  queue: factor('people in a concourse or queue', 0.7, 'read', AUTHORITY),
  'tables-and-chairs': factor('people at tables', 1.0, 'read', AUTHORITY),
  'meeting-room': factor('people in a meeting room', 1.1, 'read', AUTHORITY),
  exhibition: factor('people at an exhibition', 1.5, 'read', AUTHORITY),
}
export const UK_AUTHORITY_BENCH_MILLIMETRES_PER_PERSON: CodeTables['benchMillimetresPerPerson'] = {
  value: 400,
  source: AUTHORITY,
  status: 'read',
}
