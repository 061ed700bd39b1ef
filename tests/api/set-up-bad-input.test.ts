import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Fault } from '../../src/api/problems.ts'
import { breakageFaults } from '../../src/api/setup/breakage-faults.ts'
import { setupFaults } from '../../src/api/setup/setup-faults.ts'
import { setupUsers } from '../../src/api/setup/still-in-use.ts'
import { weeklyClash } from '../../src/api/shifts/weekly-clash.ts'
import { Instant } from '../../src/domain/instant.ts'
import { type SetupKind, type SetupRows, setupKinds } from '../../src/domain/setup.ts'
import type { SiteSetup } from '../../src/domain/snapshot.ts'
import { weeklyIntervals } from '../../src/scheduler/timeline/weekly-intervals.ts'
import { aService } from './a-service.ts'
import { aRow, aSetup, hours, plainRows } from './a-setup.ts'
import { aChair, aDimmer, aProjector, aSite, aWeeklyShift } from './a-site.ts'

const now = Instant.parse(hours(0))

const faultsOf = <Kind extends SetupKind>(kind: Kind, row: SetupRows[Kind], setup = aSetup()): Fault[] =>
  setupFaults[kind](row, setup, now)

const told = (faults: readonly Fault[]): [string, string][] => faults.map(({ at, message }) => [at, message])

type Case = readonly [what: string, fields: object, at: string, message: string, lists?: Partial<SiteSetup>]

/** Each row is the plain one with a few other fields, and has this one fault. */
function saysOfEach<Kind extends SetupKind>(kind: Kind, cases: readonly Case[]): void {
  test.each(cases.map((one) => [one[0], one] as const))('%s', (_what, [, fields, at, message, lists]) => {
    const row = aRow(kind, fields)
    expect(told(faultsOf(kind, row, aSetup(lists)))).toEqual([[at, message]])
  })
}

const corners = (...list: [number, number][]) => list.map(([xMetres, yMetres]) => ({ xMetres, yMetres }))
const polygon = (...list: [number, number][]) => ({ kind: 'polygon', corners: corners(...list) })
const retiredSection = {
  ...aSetup().retired,
  sections: [aRow('section', { id: 'section_old', name: 'Old' })],
}

describe('nothing is wrong with', () => {
  test.each(setupKinds)('the plain %s of the tests', (kind) => {
    expect(faultsOf(kind, aRow(kind))).toEqual([])
  })
})

describe('a room is refused', () => {
  saysOfEach('room', [
    [
      'that has a section twice',
      { sectionIds: ['section_north', 'section_north'] },
      '/sectionIds/1',
      'section section_north is listed twice; list it once',
    ],
    [
      'of a section that is not there',
      { sectionIds: ['section_north', 'section_moon'] },
      '/sectionIds/1',
      'there is no section section_moon in this site',
    ],
    [
      'of a section that is retired',
      { sectionIds: ['section_north', 'section_old'] },
      '/sectionIds/1',
      'section Old is retired; take one that is in force',
      { retired: retiredSection },
    ],
    [
      'whose floor crosses itself',
      { floor: polygon([0, 0], [10, 10], [10, 0], [0, 10]), parking: [] },
      '/floor/corners',
      'the floor crosses itself: the side from corner 1 to 2 meets the side from corner 3 to 4; list the corners in order around it',
    ],
    [
      'whose floor has no area',
      { floor: polygon([0, 0], [5, 0], [9, 0]), parking: [] },
      '/floor/corners',
      'the floor has no area: its corners lie on one line',
    ],
    [
      'whose floor comes back to a corner',
      { floor: polygon([0, 0], [10, 0], [10, 10], [0, 0]), parking: [] },
      '/floor/corners/3',
      'corner 4 of the floor repeats corner 1; list each corner once, the last one joins the first by itself',
    ],
    [
      'with a zone that crosses itself',
      { zones: [{ name: 'Stage', corners: corners([0, 0], [4, 4], [4, 0], [0, 4]) }] },
      '/zones/0/corners',
      'zone Stage crosses itself: the side from corner 1 to 2 meets the side from corner 3 to 4; list the corners in order around it',
    ],
    [
      'with a zone outside its floor',
      { zones: [{ name: 'Stage', corners: corners([16, 0], [20, 0], [20, 4], [16, 4]) }] },
      '/zones/0/corners',
      'zone Stage is not within the floor of the room',
    ],
    [
      'with two zones of one name',
      {
        zones: [0, 4].map((x) => ({
          name: 'Strip',
          corners: corners([x, 0], [x + 4, 0], [x + 4, 4], [x, 4]),
        })),
      },
      '/zones/1/name',
      'zone Strip is listed twice; list it once',
    ],
    [
      'with a fixed thing that reaches beyond its floor',
      {
        fixedThings: [
          {
            name: 'Stage',
            outline: { kind: 'rectangle', xMetres: 14, yMetres: 4, widthMetres: 5, depthMetres: 4 },
          },
        ],
      },
      '/fixedThings/0/outline',
      'fixed thing Stage is not within the floor of the room',
    ],
    [
      'with a fixed thing that crosses itself',
      {
        fixedThings: [
          { name: 'Bar', outline: { kind: 'polygon', corners: corners([0, 0], [4, 4], [4, 0], [0, 4]) } },
        ],
      },
      '/fixedThings/0/outline/corners',
      'fixed thing Bar crosses itself: the side from corner 1 to 2 meets the side from corner 3 to 4; list the corners in order around it',
    ],
    [
      'with two fixed things of one name',
      {
        fixedThings: [0, 4].map((xMetres) => ({
          name: 'Column',
          outline: { kind: 'rectangle', xMetres, yMetres: 4, widthMetres: 1, depthMetres: 1 },
        })),
      },
      '/fixedThings/1/name',
      'fixed thing Column is listed twice; list it once',
    ],
    [
      'whose parking is larger than its floor',
      { parking: [{ name: 'Foyer', areaSquareMetres: 300 }] },
      '/parking/0/areaSquareMetres',
      'parking place Foyer takes 300 m², and the whole floor has 216 m²',
    ],
    [
      'whose parking is larger than its sections, where no floor is drawn',
      { floor: null, parking: [{ name: 'Foyer', areaSquareMetres: 216.5 }] },
      '/parking/0/areaSquareMetres',
      'parking place Foyer takes 216.5 m², and the whole floor has 216 m²',
    ],
    [
      'that is acoustically joined to itself',
      { acousticallyJoinedRoomIds: ['room_hall'] },
      '/acousticallyJoinedRoomIds/0',
      'a room hears itself anyway; leave it out',
    ],
    [
      'that is acoustically joined to none that is there',
      { acousticallyJoinedRoomIds: ['room_moon'] },
      '/acousticallyJoinedRoomIds/0',
      'there is no room room_moon in this site',
    ],
    [
      'whose home layout is of another room',
      { id: 'room_other', homeLayoutId: 'layout_meeting' },
      '/homeLayoutId',
      'layout Two rows is of another room; the home layout must be of this one',
    ],
    [
      'whose home layout is not there',
      { homeLayoutId: 'layout_moon' },
      '/homeLayoutId',
      'there is no layout layout_moon in this site',
    ],
    [
      'whose hours overlap',
      {
        openingHours: [
          { weekdays: [5], opensLocal: '18:00', closesLocal: '02:00' },
          { weekdays: [6], opensLocal: '01:00', closesLocal: '12:00' },
        ],
      },
      '/openingHours/1',
      'these hours overlap hours listed before; make one of both or shorten one',
    ],
  ])

  test('not for a floor whose corners go round the other way, nor for a zone along its walls', () => {
    const floor = polygon([0, 12], [18, 12], [18, 0], [0, 0])
    const zones = [{ name: 'All', corners: corners([0, 0], [18, 0], [18, 12], [0, 12]) }]
    expect(faultsOf('room', aRow('room', { floor, zones }))).toEqual([])
  })
})

describe('an exit is refused', () => {
  saysOfEach('exit', [
    [
      'that is wider than its wall',
      { clearWidthMetres: 2.4, wallMetres: 2 },
      '/clearWidthMetres',
      'the exit is 2.4 m wide, its wall only 2 m long',
    ],
    [
      'that is wider than every wall of the room, where its own is unknown',
      { clearWidthMetres: 19 },
      '/clearWidthMetres',
      'the exit is 19 m wide, the longest wall of Long Hall only 18 m',
    ],
    [
      'of a section that is not there',
      { sectionId: 'section_moon' },
      '/sectionId',
      'there is no section section_moon in this site',
    ],
    [
      'that is far from its room',
      { position: { xMetres: 18, yMetres: 500 } },
      '/position',
      'the exit would be 488 m off the floor of Long Hall; give a place in one of its walls, or leave the position out',
    ],
    [
      'that is just too far from every room over its section',
      { position: { xMetres: 21.01, yMetres: 13 } },
      '/position',
      'the exit would be 1.1 m off the floor of Annexe; give a place in one of its walls, or leave the position out',
      {
        rooms: [
          aRow('room'),
          aRow('room', {
            id: 'room_annexe',
            name: 'Annexe',
            floor: polygon([18, 12], [20, 12], [20, 16], [18, 16]),
            parking: [],
          }),
          aRow('room', { id: 'room_all', name: 'All', floor: null }),
        ],
      },
    ],
  ])

  test('not that is a metre outside a wall, or in the floor, or of rooms whose floor nobody knows', () => {
    const at = (xMetres: number, yMetres: number) => aRow('exit', { position: { xMetres, yMetres } })
    expect(faultsOf('exit', at(-1, 4))).toEqual([])
    expect(faultsOf('exit', at(9, 6))).toEqual([])
    const rooms = [aRow('room', { floor: null })]
    expect(faultsOf('exit', at(400, 400), aSetup({ rooms }))).toEqual([])
  })
})

describe('a passage is refused', () => {
  saysOfEach('passage', [
    [
      'that takes time to ride and is no lift',
      { rideSeconds: 40 },
      '/rideSeconds',
      'only a lift takes time to ride; of a doorway leave it at 0',
    ],
    [
      'that has a load limit and is no lift',
      { kind: 'ramp', loadLimitKilograms: 500 },
      '/loadLimitKilograms',
      'only a lift has a load limit; of a ramp leave it out',
    ],
  ])
})

describe('a storage place is refused', () => {
  const route = plainRows.storagePlace.routes[0]
  saysOfEach('storagePlace', [
    [
      'with two ways to the same room',
      { routes: [route, route] },
      '/routes/1/roomId',
      'room room_hall is listed twice; list it once',
    ],
    [
      'with a way to no room',
      { routes: [{ ...route, roomId: 'room_moon' }] },
      '/routes/0/roomId',
      'there is no room room_moon in this site',
    ],
    [
      'with a way through a passage that is not there',
      { routes: [{ ...route, passageIds: ['passage_dock', 'passage_moon'] }] },
      '/routes/0/passageIds/1',
      'there is no passage passage_moon in this site',
    ],
    [
      'with a way through the same passage twice',
      { routes: [{ ...route, passageIds: ['passage_dock', 'passage_dock'] }] },
      '/routes/0/passageIds/1',
      'passage passage_dock is listed twice; list it once',
    ],
    [
      'whose way comes onto the floor nowhere near it',
      { routes: [{ ...route, doorAt: { xMetres: 22, yMetres: 6 } }] },
      '/routes/0/doorAt',
      'the door would be 4 m off the floor of Long Hall; give a place in one of its walls, or leave doorAt out',
    ],
    [
      'with two limits for the same furnishing',
      { limits: [1, 2].map((countMost) => ({ furnishingId: 'furnishing_chair', countMost })) },
      '/limits/1/furnishingId',
      'furnishing furnishing_chair is listed twice; list it once',
    ],
    [
      'with a limit for a furnishing that is not there',
      { limits: [{ furnishingId: 'furnishing_moon', countMost: 1 }] },
      '/limits/0/furnishingId',
      'there is no furnishing furnishing_moon in this site',
    ],
    [
      'with a furnishing twice in its depth',
      { depthOrder: ['furnishing_chair', 'furnishing_chair'] },
      '/depthOrder/1',
      'furnishing furnishing_chair is listed twice; list it once',
    ],
    [
      'with a furnishing in its depth that is not there',
      { depthOrder: ['furnishing_moon'] },
      '/depthOrder/0',
      'there is no furnishing furnishing_moon in this site',
    ],
  ])
})

describe('a furnishing is refused', () => {
  saysOfEach('furnishing', [
    [
      'that is kept nowhere',
      { storagePlaceId: 'storage_moon' },
      '/storagePlaceId',
      'there is no storage place storage_moon in this site',
    ],
    [
      'on trolleys that are not there',
      { trolley: null },
      '/trolley',
      'the method is trolley, so say how many pieces one takes and how many the site owns',
    ],
    [
      'that is carried and has a trolley',
      { method: 'carry' },
      '/method',
      'it has a trolley: say method trolley, or leave the trolley out',
    ],
    [
      'that is round and deeper than wide',
      { kind: 'round-table', widthMetres: 1.5, depthMetres: 1.8 },
      '/depthMetres',
      'a round table is as deep as it is wide: both are the diameter',
    ],
  ])
})

describe('a furnishing that rolls, slides or is carried', () => {
  test.each(['carry', 'roll', 'slide'])('%s: is taken without a trolley, and refused with one', (method) => {
    expect(faultsOf('furnishing', aRow('furnishing', { method, trolley: null }))).toEqual([])
    expect(told(faultsOf('furnishing', aRow('furnishing', { method })))).toEqual([
      ['/method', 'it has a trolley: say method trolley, or leave the trolley out'],
    ])
  })
})

describe('a tool is refused', () => {
  saysOfEach('tool', [
    [
      'for a furnishing that is not there',
      { furnishingIds: ['furnishing_moon'] },
      '/furnishingIds/0',
      'there is no furnishing furnishing_moon in this site',
    ],
    [
      'for the same cleaning twice',
      { cleaningMethods: ['sweep', 'sweep'] },
      '/cleaningMethods/1',
      'cleaning method sweep is listed twice; list it once',
    ],
  ])
})

describe('a device is refused', () => {
  const { control } = plainRows.equipment
  const states = (fields: object) => ({ control: { ...control, ...fields }, protections: [] })
  const level = {
    kind: 'level',
    lowestPercent: 10,
    highestPercent: 100,
    canBeOff: true,
    homeSetting: { kind: 'off' },
    setSeconds: 30,
    hands: 1,
    skill: null,
  }
  const dimmer = (fields: object) => ({ kind: 'lighting', control: { ...level, ...fields }, protections: [] })
  const up = { kind: 'state', state: 'up' }
  saysOfEach('equipment', [
    [
      'with a state that nothing leads to',
      states({ transitions: control.transitions.slice(1) }),
      '/control/transitions',
      'there is no way from up to down; add the transitions that lead there',
    ],
    [
      'with a state that nothing leads out of',
      states({ transitions: control.transitions.slice(0, 1) }),
      '/control/transitions',
      'there is no way from down to up; add the transitions that lead there',
    ],
    [
      'with a way from a state to itself',
      states({ transitions: [...control.transitions, { ...control.transitions[0], to: 'up' }] }),
      '/control/transitions/2',
      'it goes from up to itself; leave it out',
    ],
    [
      'at home in a state it has not',
      states({ homeState: 'rolled' }),
      '/control/homeState',
      'rolled is none of the states of this device',
    ],
    [
      'at home in its dead band',
      dimmer({ homeSetting: { kind: 'level', levelPercent: 3 } }),
      '/control/homeSetting',
      '3 % cannot be held: this device can be off or 10 to 100 %',
    ],
    [
      'whose levels are upside down',
      dimmer({ lowestPercent: 90, highestPercent: 20 }),
      '/control/highestPercent',
      'the highest level, 20 %, is under the lowest, 90 %; swap them',
    ],
    [
      'that is protected in a state it has not',
      { protections: [{ during: ['games'], setting: { kind: 'state', state: 'boxed' } }] },
      '/protections/0/setting',
      'boxed is none of its states; its states are up, down',
    ],
    [
      'that is protected in two ways from the same use',
      {
        protections: [
          { during: ['games', 'other'], setting: up },
          { during: ['banquet', 'games'], setting: up },
        ],
      },
      '/protections/1/during/1',
      'it says twice how the device is protected during games; say it once',
    ],
    [
      'that stands in for itself',
      { standInIds: ['equipment_screen'] },
      '/standInIds/0',
      'a device cannot stand in for itself; name another one',
    ],
    [
      'that something unknown stands in for',
      { standInIds: ['equipment_moon'] },
      '/standInIds/0',
      'there is no equipment equipment_moon in this site',
    ],
    [
      'that must cool before it is lit again and is no lamp',
      { restrikeSeconds: 900 },
      '/restrikeSeconds',
      'only a lamp has to cool before it is lit again: the kind must be lighting or projection, not screen',
    ],
    [
      'that must cool before it is lit again and is never off',
      {
        ...dimmer({ canBeOff: false, homeSetting: { kind: 'level', levelPercent: 50 } }),
        restrikeSeconds: 900,
      },
      '/restrikeSeconds',
      'this device is never off, so it is never lit again; leave it at 0',
    ],
    [
      'that asks for more skills than can be told apart, the one of its readiness check among them',
      {
        ...states({
          transitions: Array.from({ length: 24 }, (_, index) => ({
            ...control.transitions[index % 2]!,
            skill: `skill-${index}`,
          })),
        }),
        readinessCheck: { what: 'line check', seconds: 60, hands: 1, skill: 'sound' },
      },
      '/control',
      'with this device the site would ask for 25 different skills, and 24 is the most; use one of those it has',
    ],
  ])

  test('not for skills that it asked for before and no longer does', () => {
    const many = states({
      transitions: Array.from({ length: 24 }, (_, index) => ({
        ...control.transitions[index % 2]!,
        skill: `skill-${index}`,
      })),
    })
    const changed = aRow('equipment', {
      ...many,
      control: {
        ...many.control,
        transitions: control.transitions.map((one) => ({ ...one, skill: 'other' })),
      },
    })
    expect(faultsOf('equipment', changed, aSetup({ equipment: [aRow('equipment', many)] }))).toEqual([])
  })
})

/** Borrowed chairs, from so many hours after now until so many; null: until further notice. */
const loan = (name: string, count: number, from: number, to: number | null) =>
  aRow('stockChange', {
    id: `stockchange_${name}`,
    of: { kind: 'furnishing', furnishingId: 'furnishing_chair', count },
    why: 'borrowed',
    fromAt: hours(from),
    toAt: to === null ? null : hours(to),
  })

const ofChairs = (count: number) =>
  aRow('layout', { furnishings: [{ furnishingId: 'furnishing_chair', count }], placements: [] })

describe('a layout of borrowed pieces', () => {
  test('is taken up to what is borrowed at one time, now or later', () => {
    const stockChanges = [loan('a', 4, -5, 24), loan('b', 6, 12, 48), loan('c', 9, 48, null)]
    expect(faultsOf('layout', ofChairs(250), aSetup({ stockChanges }))).toEqual([])
    expect(faultsOf('layout', ofChairs(251), aSetup({ stockChanges }))).toHaveLength(1)
  })

  test('needs its loan: that is neither made smaller nor ended before now', () => {
    const setup = aSetup({ layouts: [ofChairs(250)], stockChanges: [loan('a', 10, 12, 48)] })
    const changed = (after: SetupRows['stockChange']) =>
      told(breakageFaults('stockChange', loan('a', 10, 12, 48), after, setup, now))
    expect(changed(loan('a', 9, 12, 48))).toEqual([
      [
        '/of',
        'layout Two rows: the layout asks for 250 stacking chairs, the site owns 240 and borrows at most 9',
      ],
    ])
    const before = { ...loan('a', 10, -12, 48), toAt: now }
    expect(changed(before)).toEqual([
      ['/toAt', 'layout Two rows: the layout asks for 250 stacking chairs, the site owns 240'],
    ])
    expect(changed(loan('a', 10, 12, 13))).toEqual([])
  })

  test('needs its loan: it is named where that is to be retired', () => {
    const users = (layout: SetupRows['layout'], stockChanges: SetupRows['stockChange'][], id: string) =>
      setupUsers('stockChange', id, aSetup({ layouts: [layout], stockChanges }), now).map(({ name }) => name)
    const loans = [loan('a', 10, 12, 48), loan('b', 7, 60, 72)]
    expect(users(ofChairs(250), loans, 'stockchange_a')).toEqual(['Two rows'])
    expect(users(ofChairs(247), loans, 'stockchange_a')).toEqual([])
    expect(users(ofChairs(250), loans, 'stockchange_b')).toEqual([])
    // It was not to be had with the loan either.
    expect(users(ofChairs(251), loans, 'stockchange_a')).toEqual([])
  })
})

describe('a layout is refused', () => {
  const bare = { furnishings: [], placements: [] }
  const placed = (...places: [string, number, number][]) =>
    places.map(([furnishingId, xMetres, yMetres]) => ({ furnishingId, xMetres, yMetres }))
  saysOfEach('layout', [
    [
      'that asks for more pieces than the site owns',
      { furnishings: [{ furnishingId: 'furnishing_chair', count: 241 }], placements: [] },
      '/furnishings/0/count',
      'the layout asks for 241 stacking chairs, the site owns 240',
    ],
    [
      'that asks for more pieces than are owned and borrowed at any one time',
      { furnishings: [{ furnishingId: 'furnishing_chair', count: 251 }], placements: [] },
      '/furnishings/0/count',
      'the layout asks for 251 stacking chairs, the site owns 240 and borrows at most 10',
      {
        stockChanges: [
          loan('a', 4, -5, 24),
          loan('b', 6, 12, 48),
          // Begins as the others go back, and one that is over by now.
          loan('c', 9, 48, null),
          loan('d', 90, -5, 0),
          aRow('stockChange', { id: 'stockchange_lent', fromAt: hours(0), toAt: null }),
        ],
      },
    ],
    [
      'that places fewer pieces than it asks for',
      { placements: placed(['furnishing_chair', 4, 4]) },
      '/placements/0/furnishingId',
      '1 stacking chairs are placed and the layout asks for 2: place all of them, or none',
    ],
    [
      'that places pieces it does not ask for',
      { ...bare, placements: placed(['furnishing_table', 4, 4]) },
      '/placements/0/furnishingId',
      'round tables are placed, but not among the furnishings of the layout',
    ],
    [
      'with a piece outside the floor',
      { placements: placed(['furnishing_chair', 4, 4], ['furnishing_chair', 17.9, 4]) },
      '/placements/1',
      'the stacking chair at 17.9 m, 4 m is not wholly on the floor of Long Hall',
    ],
    [
      'with a round table through the wall',
      {
        furnishings: [{ furnishingId: 'furnishing_table', count: 1 }],
        placements: placed(['furnishing_table', 0.7, 6]),
      },
      '/placements/0',
      'the round table at 0.7 m, 6 m is not wholly on the floor of Long Hall',
    ],
    [
      'with a state the device has not',
      { equipment: [{ equipmentId: 'equipment_screen', setting: { kind: 'state', state: 'half' } }] },
      '/equipment/0/setting',
      'Screen: half is none of its states; its states are up, down',
    ],
    [
      'that would have a device damaged by what it is for',
      { kind: 'games' },
      '/equipment/0/setting',
      'games can damage Screen: then it must be up, and the layout asks for down',
    ],
    [
      'that would have a device damaged at home, where it does not name it',
      { kind: 'games', equipment: [] },
      '/equipment',
      'games can damage Screen: then it must be down. The layout does not name it, so it would be at home: up; name it',
      {
        equipment: [
          aRow('equipment', {
            protections: [{ during: ['games'], setting: { kind: 'state', state: 'down' } }],
          }),
        ],
      },
    ],
    [
      'of a room that is not there',
      { roomId: 'room_moon' },
      '/roomId',
      'there is no room room_moon in this site',
    ],
  ])

  test('not for a table that just touches the wall, nor for pieces whose size nobody knows', () => {
    const furnishings = [{ furnishingId: 'furnishing_table', count: 1 }]
    const touching = aRow('layout', { furnishings, placements: placed(['furnishing_table', 0.75, 6]) })
    expect(faultsOf('layout', touching)).toEqual([])
    const unknown = aRow('furnishing', { widthMetres: null })
    const close = aRow('layout', {
      placements: placed(['furnishing_chair', 0.1, 4], ['furnishing_chair', 17.9, 4]),
    })
    expect(faultsOf('layout', close, aSetup({ furnishings: [unknown] }))).toEqual([])
  })
})

describe('a person is refused', () => {
  saysOfEach('person', [
    [
      'who is a minor and operates the lift',
      { adult: false },
      '/skills/1',
      'lift-operator is for adults only by the policy of the site; a minor cannot have it',
    ],
    [
      'with a skill twice',
      { skills: ['sound', 'sound'] },
      '/skills/1',
      'skill sound is listed twice; list it once',
    ],
    [
      'with days for a skill that is not among theirs',
      { skillDates: [{ skill: 'rigging', lastDate: '2027-01-01' }] },
      '/skillDates/0/skill',
      'rigging is none of the skills of this person; add it to them',
    ],
    [
      'whose skill ends before it begins',
      { skillDates: [{ skill: 'sound', firstDate: '2027-01-01', lastDate: '2026-12-31' }] },
      '/skillDates/0/lastDate',
      'the last day must not be before the first, 2027-01-01',
    ],
    [
      'whose skill lasts until the year 2100',
      { skillDates: [{ skill: 'sound', lastDate: '2100-01-01' }] },
      '/skillDates/0/lastDate',
      'the year 2100 is outside 2000 to 2099',
    ],
  ])

  test('not who is a minor and operates the lift, where the policy lets minors', () => {
    const policy = aRow('policy', { adultOnlySkills: [] })
    expect(faultsOf('person', aRow('person', { adult: false }), aSetup({ policy }))).toEqual([])
  })
})

describe('a shift is refused', () => {
  const { times } = plainRows.shift
  const weekly = (fields: object) => ({ times: { ...times, ...fields } })
  const another = (fields: object) => ({
    id: 'shift_more',
    name: 'Reed, more',
    times: { ...times, exceptions: [], ...fields },
  })
  saysOfEach('shift', [
    [
      'that ends when it starts, every week',
      weekly({ endsLocal: '17:00' }),
      '/times/endsLocal',
      'it ends when it starts: nobody would be on duty, or for a whole day; give another end',
    ],
    [
      'that ends when it starts, once',
      { times: { kind: 'once', startsAt: hours(5), endsAt: hours(5) } },
      '/times/endsAt',
      'the shift must end after it starts',
    ],
    [
      'of more than a week',
      { times: { kind: 'once', startsAt: hours(0), endsAt: hours(7 * 24 + 1) } },
      '/times/endsAt',
      'a shift may last 7 days; make several, or a weekly one',
    ],
    [
      'whose last day is before its first',
      weekly({ lastDate: '2025-12-31', exceptions: [] }),
      '/times/lastDate',
      'the last day must not be before the first',
    ],
    [
      'on the same weekday twice',
      weekly({ weekdays: [5, 5] }),
      '/times/weekdays/1',
      'weekday 5 is listed twice; list it once',
    ],
    [
      'with two exceptions on one day',
      weekly({ exceptions: [1, 2].map(() => ({ kind: 'off', date: '2026-11-27' })) }),
      '/times/exceptions/1/date',
      'day 2026-11-27 is listed twice; list it once',
    ],
    [
      'with an exception on a weekday it does not have',
      weekly({ exceptions: [{ kind: 'off', date: '2026-11-29' }] }),
      '/times/exceptions/0/date',
      '2026-11-29 is a Sunday, and the pattern has none: there is nothing to except',
    ],
    [
      'with an exception before its first day',
      weekly({ exceptions: [{ kind: 'off', date: '2025-12-26' }] }),
      '/times/exceptions/0/date',
      '2025-12-26 is outside the days of the pattern',
    ],
    [
      'with an exception that ends when it starts',
      weekly({
        exceptions: [{ kind: 'other-times', date: '2026-11-27', startsLocal: '18:00', endsLocal: '18:00' }],
      }),
      '/times/exceptions/0/endsLocal',
      'it ends when it starts: nobody would be on duty, or for a whole day; give another end',
    ],
    [
      'of somebody who is not there',
      { crew: { kind: 'person', personId: 'person_moon' } },
      '/crew/personId',
      'there is no person person_moon in this site',
    ],
    [
      'of hands who may be minors with a skill for adults',
      { crew: { kind: 'hands', hands: 2, skills: ['rigging'], adults: false } },
      '/crew/skills/0',
      'rigging is for adults only by the policy of the site; a minor cannot have it',
    ],
    [
      'that meets another one of the same person every week',
      another({ weekdays: [6], startsLocal: '22:00', endsLocal: '02:00' }),
      '/times',
      'on 2026-01-03 this person is on duty already by the shift Reed, evenings; change one of the two, or make an exception',
    ],
    [
      'that meets another one only over night',
      another({ weekdays: [4], startsLocal: '20:00', endsLocal: '18:00', firstDate: '2026-02-01' }),
      '/times',
      'on 2026-02-05 this person is on duty already by the shift Reed, evenings; change one of the two, or make an exception',
    ],
    [
      'that meets another one only on the day of an exception',
      another({
        weekdays: [5],
        startsLocal: '08:00',
        endsLocal: '12:00',
        exceptions: [{ kind: 'other-times', date: '2031-03-07', startsLocal: '16:00', endsLocal: '18:00' }],
      }),
      '/times',
      'on 2031-03-07 this person is on duty already by the shift Reed, evenings; change one of the two, or make an exception',
    ],
  ])

  test('not for another one that begins when the first ends, or is over before, or meets it on days off alone', () => {
    const follows = another({ startsLocal: '23:00', endsLocal: '02:00' })
    const over = another({ lastDate: '2026-03-01', firstDate: '2026-01-01' })
    const later = aRow('shift', { times: { ...times, firstDate: '2026-03-02', exceptions: [] } })
    const onDayOff = another({ weekdays: [5], firstDate: '2026-11-27', lastDate: '2026-11-27' })
    expect(faultsOf('shift', aRow('shift', follows))).toEqual([])
    expect(faultsOf('shift', aRow('shift', over), aSetup({ shifts: [later] }))).toEqual([])
    expect(faultsOf('shift', aRow('shift', onDayOff))).toEqual([])
  })

  test('exactly when the two patterns share a moment, laid out day by day over a year', () => {
    const time = fc.integer({ min: 0, max: 23 }).map((hour) => `${String(hour).padStart(2, '0')}:00`)
    const pattern = fc
      .record({
        weekdays: fc.uniqueArray(fc.integer({ min: 1, max: 7 }), { minLength: 1, maxLength: 3 }),
        startsLocal: time,
        endsLocal: time,
        firstDate: fc.integer({ min: 1, max: 9 }).map((day) => `2026-06-0${day}`),
        lastDate: fc.integer({ min: 10, max: 30 }).map((day) => `2026-06-${day}`),
        offDays: fc.uniqueArray(fc.integer({ min: 1, max: 30 }), { maxLength: 12 }),
      })
      .filter(({ startsLocal, endsLocal }) => startsLocal !== endsLocal)
      .map(({ offDays, ...rest }) => ({
        kind: 'weekly' as const,
        ...rest,
        exceptions: offDays.map((day) => ({
          kind: 'off' as const,
          date: `2026-06-${String(day).padStart(2, '0')}`,
        })),
      }))
    const june = { fromAt: Instant.parse(Date.UTC(2026, 4, 20)), toAt: Instant.parse(Date.UTC(2026, 6, 10)) }
    const laidOut = (one: Parameters<typeof weeklyClash>[0]) =>
      weeklyIntervals(
        {
          weekdays: one.weekdays,
          fromLocal: one.startsLocal,
          toLocal: one.endsLocal,
          firstDate: one.firstDate,
          lastDate: one.lastDate,
          exceptions: one.exceptions.map(({ date }) => ({ date, times: null })),
        },
        'UTC',
        june,
      )
    fc.assert(
      fc.property(pattern, pattern, (one, other) => {
        const meet = laidOut(one).some((a) =>
          laidOut(other).some((b) => a.fromAt < b.toAt && b.fromAt < a.toAt),
        )
        expect(weeklyClash(one, other) !== null).toBe(meet)
        expect(weeklyClash(other, one) !== null).toBe(meet)
      }),
      { seed: 20261125, numRuns: 300 },
    )
  })
})

describe('a closure is refused', () => {
  saysOfEach('closure', [
    [
      'that closes nothing',
      { sectionIds: [] },
      '',
      'it closes nothing: name sections, storage places, passages or exits',
    ],
    ['that ends when it starts', { toAt: hours(24) }, '/toAt', 'the end must be after the start'],
    [
      'of more than a year',
      { toAt: hours(24 + 366 * 24 + 1) },
      '/toAt',
      'a closure may last 366 days; retire what will not be used again',
    ],
    [
      'of an exit that is not there',
      { exitIds: ['exit_moon'] },
      '/exitIds/0',
      'there is no exit exit_moon in this site',
    ],
    [
      'of the same passage twice',
      { passageIds: ['passage_dock', 'passage_dock'] },
      '/passageIds/1',
      'passage passage_dock is listed twice; list it once',
    ],
    [
      'of a store that is not there',
      { storagePlaceIds: ['storage_moon'] },
      '/storagePlaceIds/0',
      'there is no storage place storage_moon in this site',
    ],
  ])
})

describe('a stock change is refused', () => {
  const chairs = (count: number) => ({ of: { kind: 'furnishing', furnishingId: 'furnishing_chair', count } })
  const another = (fields: object) => ({ id: 'stockchange_more', ...fields })
  saysOfEach('stockChange', [
    [
      'of more than the site owns',
      chairs(241),
      '/of/count',
      'from Tue 24 Nov 09:00 241 stacking chairs would be away, and there are 240',
    ],
    [
      'that, with what is away by then already, comes to more than there is',
      another({ ...chairs(201), why: 'out-of-service', fromAt: hours(0), toAt: null }),
      '/of/count',
      'from Tue 24 Nov 09:00 241 stacking chairs would be away, and there are 240',
    ],
    [
      'of more tools than there are',
      { of: { kind: 'tool', toolId: 'tool_mop', count: 4 } },
      '/of/count',
      'from Tue 24 Nov 09:00 4 dust mops would be away, and there are 3',
    ],
    ['that ends before it starts', { toAt: hours(23) }, '/toAt', 'the end must be after the start'],
    [
      'of something that is not there',
      { of: { kind: 'equipment', equipmentId: 'equipment_moon' } },
      '/of/equipmentId',
      'there is no equipment equipment_moon in this site',
    ],
    [
      'that borrows a device',
      { of: { kind: 'equipment', equipmentId: 'equipment_screen' }, why: 'borrowed' },
      '/why',
      'a borrowed device has states of its own: add it as equipment',
    ],
  ])

  test('not while enough is borrowed, and again from when that has gone back', () => {
    const borrowed = aRow('stockChange', {
      ...another(chairs(10)),
      why: 'borrowed',
      fromAt: hours(0),
      toAt: hours(48),
    })
    const setup = aSetup({ stockChanges: [borrowed] })
    const until = (toAt: number) => aRow('stockChange', { ...chairs(250), fromAt: hours(24), toAt })
    expect(faultsOf('stockChange', until(hours(48)), setup)).toEqual([])
    expect(told(faultsOf('stockChange', until(hours(49)), setup))).toEqual([
      ['/of/count', 'from Wed 25 Nov 09:00 250 stacking chairs would be away, and there are 240'],
    ])
  })
})

describe('an observation is refused', () => {
  saysOfEach('observation', [
    [
      'of the future',
      { seenAt: hours(1) },
      '/seenAt',
      'nobody has seen the future: it must not be after now',
    ],
    [
      'of more pieces than there are',
      { pieces: [{ furnishingId: 'furnishing_table', count: 16 }] },
      '/pieces/0/count',
      '16 round tables were seen, the site owns 15',
    ],
    [
      'of more pieces than there are with those that were borrowed then',
      { pieces: [{ furnishingId: 'furnishing_chair', count: 281 }] },
      '/pieces/0/count',
      '281 stacking chairs were seen, the site owned 240 and had borrowed 40',
      { stockChanges: [aRow('stockChange', { why: 'borrowed', fromAt: hours(-2) })] },
    ],
    [
      'of a device in a state it has not',
      { equipment: [{ equipmentId: 'equipment_screen', setting: { kind: 'level', levelPercent: 5 } }] },
      '/equipment/0/setting',
      'Screen: it has no levels; its states are up, down',
    ],
    [
      'of a room that is not there',
      { roomId: 'room_moon' },
      '/roomId',
      'there is no room room_moon in this site',
    ],
  ])
})

describe('a rate set is refused', () => {
  const rates = (fields: object) => ({ rates: { ...plainRows.rateSet.rates, ...fields } })
  saysOfEach('rateSet', [
    [
      'whose walkthrough takes no time',
      rates({ walkthroughModes: [{ hands: 1, seconds: 0 }] }),
      '/rates/walkthroughModes/0/seconds',
      'a rate must be more than 0: nothing is done in no time',
    ],
    [
      'whose sign-off is done by nobody',
      rates({ signOffModes: [{ hands: 0, seconds: 60 }] }),
      '/rates/signOffModes/0/hands',
      'somebody has to do it: at least 1 hand',
    ],
    [
      'in which more hands take longer',
      rates({
        signOffModes: [
          { hands: 1, seconds: 60 },
          { hands: 2, seconds: 61 },
        ],
      }),
      '/rates/signOffModes/1/seconds',
      '2 hands cannot take longer than 1',
    ],
    [
      'that marks what is no rate',
      { marks: { luckPersonSeconds: { origin: 'set', source: 'a guess' } } },
      '/marks/luckPersonSeconds',
      'luckPersonSeconds is none of the rates',
    ],
  ])
})

describe('a policy is refused', () => {
  saysOfEach('policy', [
    [
      'whose hands are worth more than they are',
      { effectiveHands: [{ hands: 2, effective: 3 }] },
      '/effectiveHands/0/effective',
      '2 hands cannot be worth more than 2',
    ],
    [
      'whose hands are worth less when they are more',
      {
        effectiveHands: [
          { hands: 2, effective: 2 },
          { hands: 4, effective: 1.9 },
        ],
      },
      '/effectiveHands/1/effective',
      '4 hands cannot be worth less than 2 hands',
    ],
    [
      'whose hands do not rise',
      {
        effectiveHands: [
          { hands: 4, effective: 3 },
          { hands: 2, effective: 2 },
        ],
      },
      '/effectiveHands/1/hands',
      'list hands in rising order, after 4 more',
    ],
    [
      'that cleans twice in the same way',
      { cleaning: { ...plainRows.policy.cleaning, games: ['sweep', 'sweep'] } },
      '/cleaning/games/1',
      'cleaning method sweep is listed twice; list it once',
    ],
  ])
})

describe('a change is refused that breaks something else', () => {
  const broken = <Kind extends SetupKind>(kind: Kind, fields: object, lists: Partial<SiteSetup> = {}) =>
    told(breakageFaults(kind, aRow(kind), aRow(kind, fields), aSetup(lists), now))

  test('pieces that a layout asks for are no longer owned', () => {
    expect(broken('furnishing', { countOwned: 1, name: 'chair' }, { stockChanges: [] })).toEqual([
      ['/countOwned', 'layout Two rows: the layout asks for 2 stacking chairs, the site owns 1'],
    ])
  })

  test('pieces that are lent out are no longer owned', () => {
    expect(broken('furnishing', { countOwned: 39 })).toEqual([
      [
        '/countOwned',
        'stock change stockchange_lent: from Tue 24 Nov 09:00 40 stacking chairs would be away, and there are 39',
      ],
    ])
  })

  test('a device loses a state that a layout asks for', () => {
    const control = { kind: 'states', states: ['up'], homeState: 'up', transitions: [] }
    expect(broken('equipment', { control })).toEqual([
      ['/control', 'layout Two rows: Screen: down is none of its states; its states are up'],
    ])
  })

  test('a device leaves the room of a layout that asks for it', () => {
    const sections = [aRow('section'), aRow('section', { id: 'section_south' })]
    expect(broken('equipment', { sectionIds: ['section_south'] }, { sections })).toEqual([
      ['/sectionIds', 'layout Two rows: Screen is not in Long Hall'],
    ])
  })

  test('a device is to be protected from what a layout asks of it', () => {
    const protections = [{ during: ['meeting'], setting: { kind: 'state', state: 'up' } }]
    expect(broken('equipment', { protections })).toEqual([
      [
        '/protections',
        'layout Two rows: meeting can damage Screen: then it must be up, and the layout asks for down',
      ],
    ])
  })

  test('a floor moves away from its exits', () => {
    const exits = [aRow('exit', { position: { xMetres: 18, yMetres: 6 } })]
    const floor = { kind: 'rectangle', widthMetres: 12, depthMetres: 12 }
    expect(broken('room', { floor, parking: [] }, { exits })).toEqual([
      [
        '/floor',
        'exit East door: the exit would be 6 m off the floor of Long Hall; give a place in one of its walls, or leave the position out',
      ],
    ])
  })

  test('a floor becomes too small for its pieces and its exits', () => {
    const floor = { kind: 'rectangle', widthMetres: 1.5, depthMetres: 1.2 }
    expect(broken('room', { floor, parking: [] })).toEqual([
      ['/floor', 'exit East door: the exit is 1.8 m wide, the longest wall of Long Hall only 1.5 m'],
      ['/floor', 'layout Two rows: the stacking chair at 4 m, 4 m is not wholly on the floor of Long Hall'],
      ['/floor', 'layout Two rows: the stacking chair at 6 m, 4 m is not wholly on the floor of Long Hall'],
    ])
  })

  test('a policy keeps a skill for adults that a minor has', () => {
    const people = [aRow('person', { adult: false, skills: ['sound'] })]
    expect(broken('policy', { adultOnlySkills: ['sound'] }, { people })).toEqual([
      [
        '/adultOnlySkills',
        'person person_reed: sound is for adults only by the policy of the site; a minor cannot have it',
      ],
    ])
  })

  test('it takes two fields together: then the fault is with the whole', () => {
    const sections = [aRow('section'), aRow('section', { id: 'section_south' })]
    const layouts = [aRow('layout', { kind: 'worship', equipment: [] })]
    const elsewhere = aRow('equipment', { sectionIds: ['section_south'], protections: [] })
    const down = { during: ['worship'], setting: { kind: 'state', state: 'down' } }
    const here = aRow('equipment', { protections: [down] })
    const setup = aSetup({ sections, layouts, equipment: [elsewhere] })
    expect(told(breakageFaults('equipment', elsewhere, here, setup, now))).toEqual([
      [
        '',
        'layout Two rows: worship can damage Screen: then it must be down. The layout does not name it, so it would be at home: up; name it',
      ],
    ])
  })

  test('what was wrong before is not held against it', () => {
    const layouts = [
      aRow('layout', { furnishings: [{ furnishingId: 'furnishing_moon', count: 2 }], placements: [] }),
    ]
    expect(broken('furnishing', { countOwned: 100 }, { layouts })).toEqual([])
  })
})

describe('what needs a part of the set-up', () => {
  const usersOf = (kind: SetupKind, id: string, lists: Partial<SiteSetup> = {}) =>
    setupUsers(kind, id, aSetup(lists), now).map(({ noun, name }) => `${noun} ${name}`)

  test('is every part in force that refers to it', () => {
    expect(usersOf('section', 'section_north')).toEqual([
      'exit East door',
      'room Long Hall',
      'equipment Screen',
    ])
    expect(usersOf('passage', 'passage_dock')).toEqual(['storage place Yard store'])
    expect(usersOf('room', 'room_hall')).toEqual(['storage place Yard store', 'layout Two rows'])
    expect(usersOf('storagePlace', 'storage_yard')).toEqual([
      'furnishing stacking chair',
      'furnishing round table',
    ])
    expect(usersOf('furnishing', 'furnishing_chair')).toEqual([
      'storage place Yard store',
      'layout Two rows',
      'stock change stockchange_lent',
    ])
    expect(usersOf('equipment', 'equipment_screen')).toEqual(['layout Two rows'])
    expect(usersOf('person', 'person_reed')).toEqual(['shift Reed, evenings'])
    const rooms = [aRow('room', { homeLayoutId: 'layout_meeting' })]
    expect(usersOf('layout', 'layout_meeting', { rooms })).toEqual(['room Long Hall'])
  })

  test('is nothing that is over', () => {
    const over = { kind: 'once', startsAt: hours(-9), endsAt: hours(-1) }
    expect(usersOf('person', 'person_reed', { shifts: [aRow('shift', { times: over })] })).toEqual([])
    const back = aRow('stockChange', {
      of: { kind: 'tool', toolId: 'tool_mop', count: 1 },
      fromAt: hours(-9),
      toAt: hours(-1),
    })
    expect(usersOf('tool', 'tool_mop', { stockChanges: [back] })).toEqual([])
    expect(usersOf('tool', 'tool_mop', { stockChanges: [{ ...back, toAt: null }] })).toEqual([
      'stock change stockchange_lent',
    ])
  })

  test.each(['exit', 'shift', 'closure', 'stockChange', 'observation'] as const)(
    'is nothing for a %s',
    (kind) => {
      expect(usersOf(kind, aRow(kind).id)).toEqual([])
    },
  )
})

describe('through the API, before any rule is asked', () => {
  const oneStep = (seconds: number) => {
    const device = aProjector(['section_a'])
    const [first, ...rest] = device.control.transitions
    return { ...device, control: { ...device.control, transitions: [{ ...first, seconds }, ...rest] } }
  }
  const cases: [string, string, object, string, string][] = [
    [
      'a transition of a week',
      'equipment',
      oneStep(7 * 86_400),
      '/control/transitions/0/seconds',
      'expected at most 86400 seconds: one step of work takes a day at most',
    ],
    [
      'a transition of less than no time',
      'equipment',
      oneStep(-1),
      '/control/transitions/0/seconds',
      'must be 0 or more',
    ],
    [
      'a trolley that takes nothing',
      'furnishings',
      { ...aChair('storage_a'), trolley: { capacityPieces: 0, countOwned: 1 } },
      '/trolley/capacityPieces',
      'must be 1 or more',
    ],
    [
      'a store that takes less than nothing',
      'storage-places',
      { name: 'X', limits: [{ furnishingId: 'furnishing_a', countMost: -1 }] },
      '/limits/0/countMost',
      'must be 0 or more',
    ],
    [
      'a posted limit below zero',
      'rooms',
      { name: 'X', sectionIds: ['section_a'], occupantLimitPosted: -5 },
      '/occupantLimitPosted',
      'must be 1 or more',
    ],
    [
      'a floor of two corners',
      'rooms',
      { name: 'X', sectionIds: ['section_a'], floor: polygon([0, 0], [1, 1]) },
      '/floor/corners',
      'list at least 3',
    ],
    [
      'a rate of zero',
      'rate-sets',
      { name: 'X', rates: { fromTrolley: { 'stacking-chair': { setPersonSeconds: 0 } } } },
      '/rates/fromTrolley/stacking-chair/setPersonSeconds',
      'a rate must be more than 0: nothing is done in no time',
    ],
    [
      'a walking speed of zero',
      'rate-sets',
      { name: 'X', rates: { walkingMetresPerSecond: 0 } },
      '/rates/walkingMetresPerSecond',
      'expected at least 0.05 m/s: slower than that nobody arrives',
    ],
    [
      'a rate nobody knows',
      'rate-sets',
      { name: 'X', rates: { fromTrolley: { throne: { setPersonSeconds: 5 } } } },
      '/rates/fromTrolley/throne',
      'no such field here',
    ],
    [
      'a misspelt field far inside',
      'equipment',
      {
        ...aDimmer(['section_a']),
        readinessCheck: { what: 'focus', seconds: 60, hands: 1, needsDrak: true },
      },
      '/readinessCheck/needsDrak',
      'no such field here',
    ],
    [
      'a shift exception of an unknown kind',
      'shifts',
      {
        ...aWeeklyShift(1),
        times: { ...aWeeklyShift(1).times, exceptions: [{ kind: 'late', date: '2026-11-28' }] },
      },
      '/times/exceptions/0/kind',
      'is not one of "off", "other-times"',
    ],
  ]

  test('bad input is refused with its place and nothing is written', async () => {
    const service = await aService()
    const site = await aSite(service)
    const before = await service.traces(site.siteId)
    for (const [what, segment, body, at, message] of cases) {
      const answer = await service.post(`${site.path}/${segment}`, body)
      expect(answer.status, `${what}: ${answer.text}`).toBe(422)
      expect(answer.body.errors[0], what).toMatchObject({ at, in: 'body', message })
    }
    expect(await service.traces(site.siteId)).toEqual(before)
  })
})
