/** What can be said about a booking by itself, each from the smallest hall that gives it and the nearest that does not. */
import { describe, expect, test } from 'vitest'
import { Closure } from '../../../src/domain/closure.ts'
import { Equipment, type EquipmentSetting } from '../../../src/domain/equipment.ts'
import { Exit } from '../../../src/domain/exit.ts'
import { Furnishing } from '../../../src/domain/furnishing.ts'
import { Layout } from '../../../src/domain/layout.ts'
import { reasonCodes, speaksAgainst } from '../../../src/domain/reason.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { StockChange } from '../../../src/domain/stock-change.ts'
import { bookingReasons } from '../../../src/scheduler/decide/checks/index.ts'
import { worldOf } from '../../../src/scheduler/timeline/world.ts'
import { aBooking, aHall, at, type HallWishes } from './a-hall.ts'

const siteId = 'site_test'

/** From 18:00 to 21:00. */
const reasons = (hall: SiteSnapshot, layout: string, headcount: number) =>
  bookingReasons(
    worldOf(hall),
    aBooking({ name: 'party', layout, doors: '2026-06-05T18:00', clear: '2026-06-05T21:00', headcount }),
  )
const codes = (hall: SiteSnapshot, layout: string, headcount: number) =>
  reasons(hall, layout, headcount).map(({ code }) => code)

/** The Long Room has 214 m²: at 50 ft² a person 46 people play, at 15 ft² a person 153 sit at tables. */
const noLimit = aHall({ occupantLimitPosted: null })
const british = (hall: SiteSnapshot): SiteSnapshot => ({ ...hall, site: { ...hall.site, codeTables: 'uk' } })

describe('a room without a posted limit', () => {
  test('refuses one person more than its floor holds by the table of the site, and names the table', () => {
    expect(codes(noLimit, 'long-games', 46)).toEqual([])
    expect(reasons(noLimit, 'long-games', 47)).toEqual([
      {
        code: 'headcount-over-computed-load',
        bookingId: 'booking_party',
        roomId: 'room_long',
        layoutId: 'layout_long-games',
        headcount: 47,
        occupantLoadComputed: 46,
        source: 'IBC Table 1004.5 (1004.1.2 up to 2015), exercise room',
      },
    ])
  })

  test('holds as many as the use of the floor allows: at tables more than at games', () => {
    expect(codes(noLimit, 'long-banquet', 120)).toEqual([])
    expect(codes(noLimit, 'long-banquet', 153)).toEqual(['headcount-over-seats'])
    const over = ['headcount-over-computed-load', 'headcount-over-seats']
    expect(codes(noLimit, 'long-banquet', 154)).toEqual(over)
  })

  test('holds what the table of another country says where the site goes by that one', () => {
    expect(codes(british(noLimit), 'long-games', 428)).toEqual([])
    const [reason] = reasons(british(noLimit), 'long-games', 429)
    // 214 m² of open floor at 0.5 m² a person.
    expect(reason).toMatchObject({
      code: 'headcount-over-computed-load',
      bookingId: 'booking_party',
      occupantLoadComputed: 428,
    })
    expect(reason).toMatchObject({ source: expect.stringMatching(/^Approved Document B vol 2, .*Table D1/) })
  })
})

describe('the load of a floor', () => {
  const chair = aHall().furnishings.find(({ id }) => id === 'furnishing_chair')
  const deck = (metres: number) =>
    Furnishing.parse({
      ...chair,
      id: 'furnishing_deck',
      name: 'deck',
      kind: 'stage-deck',
      widthMetres: metres,
      depthMetres: metres,
    })
  const stageOnly = (layout: Layout) =>
    Layout.parse({ ...layout, furnishings: [{ furnishingId: 'furnishing_deck', count: 1 }] })
  const withDeck = { ...noLimit, layouts: noLimit.layouts.map(stageOnly), furnishings: [deck(10)] }
  const loadWith = (changes: Partial<SiteSnapshot>) =>
    reasons({ ...withDeck, ...changes }, 'long-games', 9000)[0]

  test('counts a stage by a row of its own, and names both rows', () => {
    // A stage of 100 m² takes 71 at 15 ft² a person, the 114 m² beside it 24 at 50 ft².
    expect(loadWith({})).toMatchObject({
      occupantLoadComputed: 71 + 24,
      source: 'IBC Table 1004.5 (1004.1.2 up to 2015), exercise room; IBC Table 1004.5 (1004.1.2 up to 2015)',
    })
  })

  test('is that of the hall as it is asked for, whatever was computed for the same layout before', () => {
    const sections = noLimit.sections.map((section) => ({ ...section, areaSquareMetres: 200 }))
    const rooms = noLimit.rooms.map((room) => ({ ...room, sectionIds: room.sectionIds.slice(0, 1) }))
    const asItIs = { changes: {}, load: 71 + 24 }
    const others = [
      { changes: { furnishings: [deck(5)] }, load: 17 + 40 },
      { changes: { sections }, load: 71 + 64 },
      { changes: { rooms }, load: 71 + 1 },
      // Where the table has no row for stages, nobody is promised a place on one.
      { changes: { site: british(noLimit).site }, load: 228 },
    ]
    for (const { changes, load } of others.flatMap((other) => [asItIs, other, asItIs])) {
      expect(loadWith(changes)).toMatchObject({ occupantLoadComputed: load })
    }
  })

  test('is computed from sections and pieces that are out of use too, where a booking still stands on them', () => {
    const retired = { ...noLimit.retired, sections: noLimit.sections, furnishings: [deck(10)] }
    expect(loadWith({ sections: [], furnishings: [], retired })).toMatchObject({
      occupantLoadComputed: 71 + 24,
    })
  })
})

describe('a room with a posted limit', () => {
  const posted = aHall({ occupantLimitPosted: 60 })

  test('is to be asked about when it allows more than the table of the site: that is no refusal', () => {
    expect(codes(posted, 'long-games', 46)).toEqual([])
    const [reason, ...others] = reasons(posted, 'long-games', 47)
    expect(reason).toEqual({
      code: 'occupancy-to-check',
      bookingId: 'booking_party',
      roomId: 'room_long',
      layoutId: 'layout_long-games',
      headcount: 47,
      occupantLoadComputed: 46,
      source: 'IBC Table 1004.5 (1004.1.2 up to 2015), exercise room',
    })
    expect(others).toEqual([])
    expect(reason && speaksAgainst(reason)).toBe(false)
  })

  test('refuses by that limit alone: what the table would say beside it is not said', () => {
    expect(codes(posted, 'long-games', 60)).toEqual(['occupancy-to-check'])
    expect(codes(posted, 'long-games', 61)).toEqual(['headcount-over-posted-limit'])
  })

  test('may hold fewer by its limit than by the table, and then nobody is to be asked', () => {
    expect(codes(aHall({ occupantLimitPosted: 40 }), 'long-games', 40)).toEqual([])
  })
})

describe('the exits of a room', () => {
  const exit = (name: string, section: string, clearWidthMetres = 1.6) =>
    Exit.parse({ id: `exit_${name}`, siteId, name, sectionId: `section_${section}`, clearWidthMetres })
  const withExits = (exits: readonly Exit[], wishes: HallWishes = {}) => ({ ...aHall(wishes), exits })
  const [north, south, side] = [exit('north', 'north'), exit('south', 'south'), exit('side', 'side')]
  const closing = (name: string, from: string, to: string) =>
    Closure.parse({
      id: `closure_${name}`,
      siteId,
      sectionIds: [],
      exitIds: [`exit_${name}`],
      fromAt: at(`2026-06-05T${from}`),
      toAt: at(`2026-06-05T${to}`),
      reason: 'paving',
    })

  test('are enough for 49 people when there is one, and too few for 50', () => {
    expect(codes(withExits([north]), 'long-banquet', 49)).toEqual([])
    expect(reasons(withExits([north]), 'long-banquet', 50)).toEqual([
      {
        code: 'exits-too-few',
        bookingId: 'booking_party',
        roomId: 'room_long',
        headcount: 50,
        exitsOpen: 1,
        exitsNeeded: 2,
        source: 'IBC 1006.2.1 and Table 1006.3.3',
      },
    ])
    expect(codes(withExits([north, south]), 'long-banquet', 50)).toEqual([])
  })

  test('are those of its own sections', () => {
    expect(codes(withExits([north, side]), 'long-banquet', 50)).toEqual(['exits-too-few'])
    expect(codes(withExits([north, south]), 'south-meeting', 40)).toEqual([])
  })

  test('are unknown where none is entered, and nothing is said', () => {
    expect(codes(withExits([]), 'long-banquet', 120)).toEqual([])
    expect(codes(withExits([side]), 'long-banquet', 120)).toEqual([])
  })

  test('count when they are 32 inches wide, to the millimetre, and the rule is named when one is not', () => {
    const narrow = (metres: number) => withExits([north, exit('narrow', 'south', metres)])
    expect(codes(narrow(0.813), 'long-banquet', 50)).toEqual([])
    expect(reasons(narrow(0.812), 'long-banquet', 50)).toMatchObject([
      {
        exitsOpen: 1,
        source: 'IBC 1006.2.1 and Table 1006.3.3; IBC 1005.3.2, least width of a door 1010.1.1',
      },
    ])
  })

  test('do not count when they are closed at any moment of the booking', () => {
    const closed = (from: string, to: string) =>
      withExits([north, south], { closures: [closing('south', from, to)] })
    expect(reasons(closed('20:59', '23:00'), 'long-banquet', 50)).toMatchObject([
      { code: 'exits-too-few', bookingId: 'booking_party', exitsOpen: 1, exitsNeeded: 2 },
    ])
    expect(codes(closed('12:00', '18:01'), 'long-banquet', 50)).toEqual(['exits-too-few'])
    expect(codes(closed('12:00', '18:00'), 'long-banquet', 50)).toEqual([])
    expect(codes(closed('21:00', '23:00'), 'long-banquet', 50)).toEqual([])
  })

  test('may all be closed while the room is not, one after the other: none is left, for one person too', () => {
    const closures = [closing('north', '17:00', '19:00'), closing('south', '19:00', '22:00')]
    const hall = withExits([north, south], { closures })
    expect(reasons(hall, 'long-banquet', 1)).toMatchObject([
      { exitsOpen: 0, exitsNeeded: 1, source: 'IBC Table 1006.2.1' },
    ])
  })

  test('are counted by the table of the site: one is enough for 59 people elsewhere', () => {
    const hall = british(withExits([exit('only', 'side', 0.75)]))
    expect(codes(hall, 'side-supper', 59)).toEqual([])
    expect(codes(hall, 'side-supper', 60)).toEqual(['exits-too-few'])
  })
})

describe('a device that the layout wants otherwise than at home', () => {
  const standIn = (section: string) =>
    Equipment.parse({
      ...aHall().equipment[0],
      id: 'equipment_portable',
      name: 'Portable desk',
      sectionIds: [`section_${section}`],
    })
  const away = (from: string, to: string | null, more: object = {}) => ({
    id: 'stockchange_desk',
    of: { kind: 'equipment', equipmentId: 'equipment_sound' },
    why: 'out-of-service',
    fromAt: at(`2026-06-05T${from}`),
    toAt: to === null ? null : at(`2026-06-05T${to}`),
    ...more,
  })
  const portableAway = (from: string, to: string) =>
    away(from, to, {
      id: 'stockchange_portable',
      of: { kind: 'equipment', equipmentId: 'equipment_portable' },
    })
  const withChanges = (...stockChanges: readonly object[]) => aHall({ stockChanges })
  const withStandIn = (hall: SiteSnapshot, other: Equipment) => ({
    ...hall,
    equipment: [...hall.equipment.map((device) => ({ ...device, standInIds: [other.id] })), other],
  })

  test('must be there from doors to clear', () => {
    expect(codes(withChanges(), 'long-banquet', 20)).toEqual([])
    expect(codes(withChanges(away('12:00', '18:00')), 'long-banquet', 20)).toEqual([])
    expect(codes(withChanges(away('21:00', null)), 'long-banquet', 20)).toEqual([])
    expect(reasons(withChanges(away('12:00', '18:01')), 'long-banquet', 20)).toEqual([
      {
        code: 'equipment-unavailable',
        bookingId: 'booking_party',
        equipmentId: 'equipment_sound',
        layoutId: 'layout_long-banquet',
        fromAt: at('2026-06-05T12:00'),
        toAt: at('2026-06-05T18:01'),
      },
    ])
    expect(reasons(withChanges(away('20:59', null)), 'long-banquet', 20)).toMatchObject([
      { fromAt: at('2026-06-05T20:59'), toAt: null },
    ])
  })

  test('is missing when it is lent out too, and not when it is borrowed', () => {
    const because = (why: string) => withChanges(away('12:00', null, { why }))
    expect(codes(because('lent-out'), 'long-banquet', 20)).toEqual(['equipment-unavailable'])
    expect(codes(because('borrowed'), 'long-banquet', 20)).toEqual([])
  })

  test('is told once, by the change that begins first', () => {
    const later = away('19:00', '20:00', { id: 'stockchange_a' })
    expect(reasons(withChanges(later, away('18:30', '19:30')), 'long-banquet', 20)).toMatchObject([
      { fromAt: at('2026-06-05T18:30'), toAt: at('2026-06-05T19:30') },
    ])
  })

  test('is not missed by a layout that does without it, or leaves it as it is at home', () => {
    const hall = withChanges(away('12:00', null))
    expect(codes(hall, 'long-worship', 20)).toEqual([])
    const asking = (setting: EquipmentSetting) => ({
      ...hall,
      layouts: hall.layouts.map((layout) => ({
        ...layout,
        equipment: layout.equipment.map((one) => ({ ...one, setting })),
      })),
    })
    expect(codes(asking({ kind: 'state', state: 'off' }), 'long-banquet', 20)).toEqual([])
    expect(codes(asking({ kind: 'state', state: 'speech' }), 'long-banquet', 20)).toHaveLength(1)
  })

  test('is not missed where a device that stands in for it is in the room and in service all the time', () => {
    const hall = withChanges(away('12:00', null))
    expect(codes(withStandIn(hall, standIn('south')), 'long-banquet', 20)).toEqual([])
    expect(codes(withStandIn(hall, standIn('side')), 'long-banquet', 20)).toEqual(['equipment-unavailable'])
    const besideIt = { ...hall, equipment: [...hall.equipment, standIn('south')] }
    expect(codes(besideIt, 'long-banquet', 20)).toEqual(['equipment-unavailable'])
    const both = (from: string, to: string) =>
      withStandIn(withChanges(away('12:00', null), portableAway(from, to)), standIn('south'))
    expect(codes(both('12:00', '18:00'), 'long-banquet', 20)).toEqual([])
    expect(codes(both('20:00', '22:00'), 'long-banquet', 20)).toEqual(['equipment-unavailable'])
  })
})

test('what is said about a booking is said in order of precedence, and nothing twice', () => {
  const hall = {
    ...aHall({
      occupantLimitPosted: null,
      openingHours: [{ weekdays: [1], opensLocal: '08:00', closesLocal: '12:00' }],
      closures: [
        Closure.parse({
          id: 'closure_works',
          siteId,
          sectionIds: ['section_north'],
          fromAt: at('2026-06-05T11:00'),
          toAt: at('2026-06-09T11:00'),
          reason: 'works',
        }),
      ],
    }),
    exits: [Exit.parse({ id: 'exit_a', siteId, name: 'a', sectionId: 'section_north', clearWidthMetres: 1 })],
    stockChanges: [
      StockChange.parse({
        id: 'stockchange_desk',
        siteId,
        of: { kind: 'equipment', equipmentId: 'equipment_sound' },
        why: 'lent-out',
        fromAt: at('2026-06-01T00:00'),
        toAt: null,
      }),
    ],
    bookings: [
      aBooking({ name: 'a', layout: 'south-meeting', doors: '2026-06-05T17:00', clear: '2026-06-05T19:00' }),
    ],
  }
  const said = codes(hall, 'long-banquet', 160)
  expect(said).toEqual([
    'room-closed',
    'outside-opening-hours',
    'room-occupied',
    'headcount-over-computed-load',
    'exits-too-few',
    'headcount-over-seats',
    'equipment-unavailable',
  ])
  expect(said).toEqual(reasonCodes.filter((code) => said.includes(code)))
})
