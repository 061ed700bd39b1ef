/** The smallest change to the clean site that brings up each finding, and that finding alone. */
import type { Finding } from '../../../src/domain/finding.ts'
import { DEFAULT_RATES } from '../../../src/scheduler/network/default-rates.ts'
import {
  booking,
  type Changes,
  hands,
  inDays,
  pieces,
  states,
  statesControl,
  step,
  weekly,
} from './a-clean-site.ts'

export interface Case {
  /** Reads on from `a check of the set-up`. */
  readonly title: string
  readonly changes: Changes
  readonly findings: readonly Omit<Finding, 'weight'>[]
}

const layout = (id: string, name: string) => ({ kind: 'layout' as const, id: `layout_${id}`, name })
const banquet = layout('banquet', 'banquet')
const device = (id: string, name: string) => ({ kind: 'equipment' as const, id: `equipment_${id}`, name })
const projector = device('projector', 'projector')
const sound = device('sound', 'sound desk')
const lights = device('lights', 'house lights')
const furnishing = (id: string, name: string) => ({
  kind: 'furnishing' as const,
  id: `furnishing_${id}`,
  name,
})
const chairs = furnishing('chair', 'stacking chair')
const tables = furnishing('table', 'round table')
const decks = furnishing('deck', 'stage deck')
const north = { kind: 'storagePlace' as const, id: 'storage_north', name: 'north store' }
const main = { kind: 'room' as const, id: 'room_main', name: 'Main Hall' }
const side = { kind: 'room' as const, id: 'room_side', name: 'Side Room' }
const policy = { kind: 'policy' as const, id: 'policy_one', name: 'policy' }
const rae = { kind: 'person' as const, id: 'person_rae', name: 'Rae Quillfeather' }
const ivo = { kind: 'person' as const, id: 'person_ivo', name: 'Ivo Tanglewick' }
const shift = (id: string, name: string) => ({ kind: 'shift' as const, id: `shift_${id}`, name })

const isAway = (count: number, more: object = {}) => ({
  of: { kind: 'furnishing', furnishingId: 'furnishing_table', count },
  why: 'out-of-service',
  fromAt: inDays(-1),
  toAt: null,
  ...more,
})
const deviceIsOut = (id: string) => ({
  of: { kind: 'equipment', equipmentId: `equipment_${id}` },
  why: 'out-of-service',
  fromAt: inDays(-1),
  toAt: inDays(10),
})

const toolIsAway = (id: string, count: number, more: object = {}) => ({
  of: { kind: 'tool', toolId: `tool_${id}`, count },
  why: 'out-of-service',
  fromAt: inDays(-1),
  toAt: null,
  ...more,
})

/** Can be as the projector can. */
const spareProjector = {
  name: 'spare projector',
  sectionIds: ['section_main'],
  control: statesControl(
    ['off', 'slides', 'game-input'],
    [step('off', 'slides'), step('slides', 'off'), step('off', 'game-input'), step('game-input', 'off')],
  ),
}

/** The projector of the clean site, with other transitions. */
const projectorWith = (...transitions: object[]) => ({
  equipment: {
    equipment_projector: {
      control: statesControl(
        ['off', 'slides', 'game-input'],
        transitions.map((one) => ({ ...one })),
      ),
    },
  },
})

const passage = (id: string, name: string) => ({ kind: 'passage' as const, id: `passage_${id}`, name })
const weekdays = [1, 2, 3, 4, 5]

/** A strip of the main hall, from one depth to another. */
const zone = (name: string, from: number, to: number) => ({
  name,
  corners: [
    { xMetres: 0, yMetres: from },
    { xMetres: 18, yMetres: from },
    { xMetres: 18, yMetres: to },
    { xMetres: 0, yMetres: to },
  ],
})

const bench = {
  name: 'bench',
  namePlural: 'benches',
  kind: 'other',
  countOwned: 4,
  massKilograms: 12,
  storagePlaceId: 'storage_north',
  method: 'carry',
  handsPerPiece: 2,
  setPersonSeconds: null,
  strikePersonSeconds: null,
  trolley: null,
}

export const cases: readonly Case[] = [
  {
    title: 'says when a row names another one that is out of use',
    changes: {
      layouts: { layout_meeting: { furnishings: pieces({ chair: 40, bench: 2 }) } },
      retired: { furnishings: { furnishing_bench: bench } },
    },
    findings: [
      {
        code: 'out-of-use-named',
        about: layout('meeting', 'circle'),
        message: 'layout circle names bench, which is out of use',
        fix: 'name another one in its place, or take this out of use as well',
        field: '/furnishings/1/furnishingId',
      },
    ],
  },
  {
    title: 'says when a layout asks more pieces than the site owns',
    changes: { layouts: { layout_banquet: { furnishings: pieces({ table: 24, chair: 120, cloth: 24 }) } } },
    findings: [
      {
        code: 'stock-short',
        about: banquet,
        message: 'layout banquet asks 24 round tables, the site owns 18',
        fix: 'ask 18 at most in the layout, or enter the 6 round tables that the site has more',
        field: '/furnishings/0/count',
      },
    ],
  },
  {
    title: 'says when a layout asks a level in the dead band of a dimmer',
    changes: {
      layouts: {
        layout_banquet: {
          equipment: [
            ...states({ sound: 'speech' }),
            { equipmentId: 'equipment_lights', setting: { kind: 'level', levelPercent: 3 } },
          ],
        },
      },
    },
    findings: [
      {
        code: 'setting-not-held',
        about: banquet,
        message: 'layout banquet asks 3 % of the house lights, which can only be off or 10 to 100 %',
        fix: 'ask off or 10 to 100 %',
        field: '/equipment/1/setting',
      },
    ],
  },
  {
    title: 'says when a layout asks a state that a device does not have',
    changes: { layouts: { layout_worship: { equipment: states({ sound: 'music', projector: 'film' }) } } },
    findings: [
      {
        code: 'setting-not-held',
        about: layout('worship', 'rows'),
        message: 'layout rows asks film of the projector, which can only be off, slides or game input',
        fix: 'ask off, slides or game input',
        field: '/equipment/1/setting',
      },
    ],
  },
  {
    title: 'says when nothing tells how a device gets into a state that a layout asks',
    changes: projectorWith(step('off', 'slides'), step('slides', 'off'), step('game-input', 'slides')),
    findings: [
      {
        code: 'device-way-missing',
        about: projector,
        message: 'nothing says how the projector gets from off or slides to game input',
        fix: 'add the transitions that lead there, with their times and hands',
        field: '/control/transitions',
      },
    ],
  },
  {
    title: 'says it for each state that a device cannot get to from where a layout leaves it',
    changes: projectorWith(step('off', 'slides'), step('slides', 'off'), step('slides', 'game-input')),
    findings: [
      {
        code: 'device-way-missing',
        about: projector,
        message: 'nothing says how the projector gets from game input to off',
        fix: 'add the transitions that lead there, with their times and hands',
        field: '/control/transitions',
      },
      {
        code: 'device-way-missing',
        about: projector,
        message: 'nothing says how the projector gets from game input to slides',
        fix: 'add the transitions that lead there, with their times and hands',
        field: '/control/transitions',
      },
    ],
  },
  {
    title: 'says when a device waits for a movable wall that is not there',
    changes: projectorWith(
      step('off', 'slides'),
      step('slides', 'off'),
      step('slides', 'game-input', { needsWallOpen: true }),
      step('game-input', 'slides'),
    ),
    findings: [
      {
        code: 'device-condition-never-met',
        about: projector,
        message:
          'the projector gets from off or slides to game input only with a movable wall open, and there is none where it is',
        fix: 'enter the movable wall as a device of the room, or take the condition off the transition',
        field: '/control/transitions/2/needsWallOpen',
      },
    ],
  },
  {
    title: 'says when a layout leaves a device where its use can damage it',
    changes: {
      equipment: {
        equipment_projector: {
          protections: [{ during: ['worship'], setting: { kind: 'state', state: 'off' } }],
        },
      },
    },
    findings: [
      {
        code: 'protection-violated',
        about: layout('worship', 'rows'),
        message: 'layout rows leaves the projector at slides, where worship can damage it: it must be off',
        fix: 'ask off of the projector in this layout',
        field: '/equipment/1/setting',
      },
    ],
  },
  {
    title: 'says once when nobody at all is on duty, and not what follows from it',
    changes: { shifts: { shift_rae: null, shift_ivo: null, shift_crew: null } },
    findings: [
      {
        code: 'crew-none',
        about: { ...policy, name: 'crew' },
        message: 'nobody is on duty in the next 28 days',
        fix: 'add shifts: for people, or for a number of hands',
        field: null,
      },
    ],
  },
  {
    title: 'says when nobody has a skill that a device needs',
    changes: { people: { person_rae: { skills: [] } } },
    findings: [
      {
        code: 'skill-nobody',
        about: sound,
        message: 'nobody has the skill sound, which the sound desk asks for',
        fix: 'give the skill to those who have it, or take it off where anybody may do the work',
        field: '/control/transitions/0/skill',
      },
    ],
  },
  {
    title: 'says when the skill to try a device out is missing, and how many devices need it',
    changes: {
      people: { person_rae: { skills: [] } },
      equipment: {
        equipment_lights: { readinessCheck: { what: 'focus', seconds: 300, hands: 1, skill: 'sound' } },
      },
    },
    findings: [
      {
        code: 'skill-nobody',
        about: lights,
        message: 'nobody has the skill sound, which the house lights and 1 more device ask for',
        fix: 'give the skill to those who have it, or take it off where anybody may do the work',
        field: '/readinessCheck/skill',
      },
    ],
  },
  {
    title: 'says when only minors have a skill that is for adults',
    changes: { people: { person_rae: { adult: false } }, policy: { adultOnlySkills: ['sound'] } },
    findings: [
      {
        code: 'skill-minors-only',
        about: sound,
        message: 'only minors have the skill sound, which is for adults and which the sound desk asks for',
        fix: 'give the skill to an adult who is qualified',
        field: '/control/transitions/0/skill',
      },
    ],
  },
  {
    title: 'says which pieces wait for an adult when only minors are on shifts',
    changes: {
      people: { person_rae: { adult: false }, person_ivo: { adult: false } },
      shifts: { shift_crew: { crew: hands(4, { adults: false }) } },
    },
    findings: [
      {
        code: 'adults-only-nobody',
        about: decks,
        message: 'only adults may handle stage decks, and no adult is on a shift',
        fix: 'add a shift with adults',
        field: null,
      },
      {
        code: 'adults-only-nobody',
        about: tables,
        message: 'only adults may handle round tables, and no adult is on a shift',
        fix: 'add a shift with adults',
        field: null,
      },
    ],
  },
  {
    title: 'says when a piece takes more hands than are ever on duty at once',
    changes: { furnishings: { furnishing_deck: { handsPerPiece: 7 } } },
    findings: [
      {
        code: 'hands-over-crew',
        about: decks,
        message: 'one stage deck takes 7 hands, at most 6 are on duty at once',
        fix: 'have 7 on duty together, or correct the hands a piece takes',
        field: '/handsPerPiece',
      },
    ],
  },
  {
    title: 'says when a device takes more hands than are ever on duty at once',
    changes: projectorWith(
      step('off', 'slides'),
      step('slides', 'off'),
      step('slides', 'game-input', { hands: 8 }),
      step('game-input', 'slides'),
    ),
    findings: [
      {
        code: 'hands-over-crew',
        about: projector,
        message:
          '8 hands are needed at the projector from slides to game input, at most 6 are on duty at once',
        fix: 'have 8 on duty together, or correct the hands it takes',
        field: '/control/transitions/2/hands',
      },
    ],
  },
  {
    title: 'says the same of a level to set and of what is tried out',
    changes: {
      equipment: {
        equipment_lights: {
          control: {
            kind: 'level',
            lowestPercent: 10,
            highestPercent: 100,
            canBeOff: true,
            homeSetting: { kind: 'level', levelPercent: 100 },
            setSeconds: 30,
            hands: 7,
            skill: null,
          },
          readinessCheck: { what: 'focus', seconds: 600, hands: 9 },
        },
      },
    },
    findings: [
      {
        code: 'hands-over-crew',
        about: lights,
        message: '7 hands are needed at the house lights to set a level, at most 6 are on duty at once',
        fix: 'have 7 on duty together, or correct the hands it takes',
        field: '/control/hands',
      },
      {
        code: 'hands-over-crew',
        about: lights,
        message: '9 hands are needed at the house lights for the focus, at most 6 are on duty at once',
        fix: 'have 9 on duty together, or correct the hands it takes',
        field: '/readinessCheck/hands',
      },
    ],
  },
  {
    title: 'says when pieces go by trolley and there is none for them',
    changes: { furnishings: { furnishing_deck: { method: 'trolley' } } },
    findings: [
      {
        code: 'method-without-trolley',
        about: decks,
        message: 'stage decks go by trolley, and the site has no trolley for them',
        fix: 'enter the trolleys and how many pieces one takes, or say that they are carried',
        field: '/trolley',
      },
    ],
  },
  {
    title: 'says when a store takes fewer pieces than a layout leaves to put away',
    changes: {
      storagePlaces: { storage_north: { limits: [{ furnishingId: 'furnishing_table', countMost: 14 }] } },
    },
    findings: [
      {
        code: 'store-limit-short',
        about: north,
        message: 'the north store holds 14 round tables, layout games floor leaves 18 to put away',
        fix: 'find a place for 4 more, raise the limit if they do go in, or leave them standing in that layout',
        field: '/limits/0/countMost',
      },
    ],
  },
  {
    title: 'counts a second store that names the pieces',
    changes: {
      storagePlaces: {
        storage_north: { limits: [{ furnishingId: 'furnishing_table', countMost: 10 }] },
        storage_yard: {
          name: 'yard shed',
          routes: [],
          limits: [{ furnishingId: 'furnishing_table', countMost: 6 }],
        },
      },
    },
    findings: [
      {
        code: 'store-limit-short',
        about: north,
        message:
          'the north store and the yard shed together hold 16 round tables, layout games floor leaves 18 to put away',
        fix: 'find a place for 2 more, raise the limit if they do go in, or leave them standing in that layout',
        field: '/limits/0/countMost',
      },
    ],
  },
  {
    title: 'says when a store has less floor than what a layout leaves to put away',
    changes: { storagePlaces: { storage_north: { areaSquareMetres: 15 } } },
    findings: [
      {
        code: 'store-floor-short',
        about: north,
        message: 'the north store has 15 m² for pieces, layout games floor leaves 17.64 m² to put away',
        fix: 'let some pieces live elsewhere, or correct the floor of the store or what one piece takes of it',
        field: '/areaSquareMetres',
      },
    ],
  },
  {
    title: 'says it in feet and pounds where the site reads those',
    changes: { site: { units: 'us' }, storagePlaces: { storage_north: { areaSquareMetres: 15 } } },
    findings: [
      {
        code: 'store-floor-short',
        about: north,
        message: 'the north store has 161 ft² for pieces, layout games floor leaves 190 ft² to put away',
        fix: 'let some pieces live elsewhere, or correct the floor of the store or what one piece takes of it',
        field: '/areaSquareMetres',
      },
    ],
  },
  {
    title: 'says when nothing tells how far a store is from a room that uses its pieces',
    changes: { storagePlaces: { storage_north: { routes: [{ roomId: 'room_main', distanceMetres: 25 }] } } },
    findings: [
      {
        code: 'route-missing',
        about: north,
        message:
          'the north store has no route to Side Room, which uses its stacking chairs: 40 m are assumed',
        fix: 'measure the way walked to the middle of Side Room and add it',
        field: '/routes',
      },
    ],
  },
  {
    title: 'says when a room has no posted occupant limit',
    changes: { rooms: { room_side: { occupantLimitPosted: null } } },
    findings: [
      {
        code: 'room-no-posted-limit',
        about: side,
        message: 'Side Room has no posted occupant limit',
        fix: 'enter the number on the sign in the room, or ask the fire authority for one',
        field: '/occupantLimitPosted',
      },
    ],
  },
  {
    title: 'says when a room has no exit',
    changes: { exits: { exit_side: null, exit_yard: null } },
    findings: [
      {
        code: 'room-no-exits',
        about: side,
        message: 'Side Room has no exit',
        fix: 'enter its exits with their clear widths',
        field: null,
      },
    ],
  },
  {
    title: 'says when a room has fewer exits than its posted limit asks',
    changes: { exits: { exit_yard: null } },
    findings: [
      {
        code: 'exits-too-few',
        about: side,
        message: 'Side Room has 1 exit for a limit of 60, and 2 are asked for (International Building Code)',
        fix: 'enter the exits that are missing; if there are none, ask the fire authority before the next booking',
        field: null,
      },
    ],
  },
  {
    title: 'reckons the occupant load where no limit is posted, and says that too',
    changes: { rooms: { room_side: { occupantLimitPosted: null } }, exits: { exit_yard: null } },
    findings: [
      {
        code: 'room-no-posted-limit',
        about: side,
        message: 'Side Room has no posted occupant limit',
        fix: 'enter the number on the sign in the room, or ask the fire authority for one',
        field: '/occupantLimitPosted',
      },
      {
        code: 'exits-too-few',
        about: side,
        message:
          'Side Room has 1 exit for an occupant load of 130, and 2 are asked for (International Building Code)',
        fix: 'enter the exits that are missing; if there are none, ask the fire authority before the next booking',
        field: null,
      },
    ],
  },
  {
    title: 'says when closures shut every exit of a room that stays open',
    changes: {
      closures: {
        closure_east: {
          sectionIds: [],
          exitIds: ['exit_east'],
          fromAt: inDays(2),
          toAt: inDays(9),
          reason: 'new doors',
        },
        closure_west: {
          sectionIds: [],
          exitIds: ['exit_west'],
          fromAt: inDays(5),
          toAt: inDays(6),
          reason: 'paving',
        },
      },
      bookings: {
        booking_supper: booking('Harvest supper', 'main', 'banquet', 4, 4.2),
        booking_dance: booking('Barn dance', 'main', 'games', 5.5, 5.6),
        booking_service: booking('Service', 'main', 'worship', 5.9, 6),
        booking_elsewhere: booking('Circle', 'side', 'meeting', 5.5, 5.6),
      },
    },
    findings: [
      {
        code: 'exits-too-few',
        about: { kind: 'closure', id: 'closure_east', name: 'new doors' },
        message:
          'Main Hall has 1 of 2 exits open from Sun 29 Nov 09:00 to Wed 2 Dec 09:00 for a limit of 220, and 2 are asked for (International Building Code)',
        fix: 'leave 2 exits open or close Main Hall for that time, or ask the fire authority how many people may be in then',
        field: '/exitIds',
      },
      {
        code: 'exits-too-few',
        about: { kind: 'closure', id: 'closure_east', name: 'new doors' },
        message:
          'Main Hall has 1 of 2 exits open from Wed 25 Nov 09:00 to Sat 28 Nov 09:00 for a limit of 220, and 2 are asked for (International Building Code); booked then: “Harvest supper” (doors Fri 27 Nov 09:00)',
        fix: 'leave 2 exits open or close Main Hall for that time, or ask the fire authority how many people may be in then',
        field: '/exitIds',
      },
      {
        code: 'exits-all-closed',
        about: { kind: 'closure', id: 'closure_west', name: 'paving' },
        message:
          'all 2 exits of Main Hall are closed from Sat 28 Nov 09:00 to Sun 29 Nov 09:00, and the room is not; booked then: “Barn dance” (doors Sat 28 Nov 21:00) and 1 more booking',
        fix: 'close Main Hall for that time too, or leave an exit open',
        field: '/exitIds',
      },
    ],
  },
  {
    title:
      'says when a closure leaves a room fewer exits than its posted limit asks, unless the room is closed',
    changes: {
      closures: {
        closure_yard: {
          sectionIds: [],
          exitIds: ['exit_yard'],
          fromAt: inDays(-3),
          toAt: inDays(4),
          reason: 'fence',
        },
        closure_room: {
          sectionIds: ['section_side'],
          fromAt: inDays(1),
          toAt: inDays(9),
          reason: 'new floor',
        },
      },
    },
    findings: [
      {
        code: 'exits-too-few',
        about: { kind: 'closure', id: 'closure_yard', name: 'fence' },
        message:
          'Side Room has 1 of 2 exits open until Tue 24 Nov 09:00 for a limit of 60, and 2 are asked for (International Building Code)',
        fix: 'leave 2 exits open or close Side Room for that time, or ask the fire authority how many people may be in then',
        field: '/exitIds',
      },
    ],
  },
  {
    title: 'says when a room has no layout',
    changes: { layouts: { layout_meeting: null }, rooms: { room_side: { homeLayoutId: null } } },
    findings: [
      {
        code: 'room-no-layouts',
        about: side,
        message: 'Side Room has no layout, so it cannot be booked',
        fix: 'add the layouts it is used in, or take the room out of use',
        field: null,
      },
    ],
  },
  {
    title: 'says when what is out of service now leaves less than a layout asks',
    changes: { stockChanges: { stockchange_one: isAway(5) } },
    findings: [
      {
        code: 'stock-away-short',
        about: tables,
        message:
          '5 round tables of 18 are away until further notice, which leaves 13, and layout banquet asks 15',
        fix: 'borrow 2, bring some back, or book a smaller layout for that time',
        field: null,
      },
    ],
  },
  {
    title:
      'says when what will be lent out leaves less than a layout asks, at its worst, and passes over what is back',
    changes: {
      stockChanges: {
        stockchange_one: isAway(4, { fromAt: inDays(5), toAt: inDays(9) }),
        stockchange_two: isAway(6, { fromAt: inDays(6), toAt: inDays(7), why: 'lent-out' }),
        stockchange_back: isAway(18, { fromAt: inDays(-9), toAt: inDays(-1) }),
        stockchange_later: isAway(9, { fromAt: inDays(20), toAt: inDays(30) }),
        stockchange_borrowed: isAway(6, { fromAt: inDays(25), toAt: inDays(40), why: 'borrowed' }),
      },
    },
    findings: [
      {
        code: 'stock-away-short',
        about: tables,
        message:
          '9 round tables of 18 are away from Sun 13 Dec 09:00 to Fri 18 Dec 09:00, which leaves 9, and layout banquet asks 15',
        fix: 'borrow 6, bring some back, or book a smaller layout for that time',
        field: null,
      },
      {
        code: 'stock-away-short',
        about: tables,
        message:
          'up to 10 round tables of 18 are away from Sat 28 Nov 09:00 to Wed 2 Dec 09:00, which leaves as few as 8 from Sun 29 Nov 09:00, and layout banquet asks 15',
        fix: 'borrow 7, bring some back, or book a smaller layout for that time',
        field: null,
      },
    ],
  },
  {
    title:
      'says when chairs are lent out on the day of a booking that needs them, and passes over the others',
    changes: {
      stockChanges: {
        stockchange_one: {
          of: { kind: 'furnishing', furnishingId: 'furnishing_chair', count: 240 },
          why: 'lent-out',
          fromAt: inDays(4.6),
          toAt: inDays(6),
        },
      },
      bookings: {
        booking_circle: booking('Circle', 'side', 'meeting', 4.7, 4.8),
        booking_before: booking('Lunch', 'main', 'banquet', 4.3, 4.6),
        booking_supper: booking('Harvest supper', 'main', 'banquet', 5.4, 5.6),
        booking_service: booking('Service', 'main', 'worship', 5.9, 6.1),
        booking_off: { ...booking('Called off', 'main', 'worship', 5, 5.1), status: 'CANCELLED' },
      },
    },
    findings: [
      {
        code: 'stock-away-booked',
        about: chairs,
        message:
          '240 stacking chairs of 300 are away from Fri 27 Nov 23:24 to Sun 29 Nov 09:00, which leaves 60, and layout banquet asks 120 for “Harvest supper” (doors Sat 28 Nov 18:36) and 1 more booking',
        fix: 'borrow 60, have some back by then, or give the booking a smaller layout',
        field: null,
      },
    ],
  },
  {
    title: 'says when more pieces are lent out than the site owns, also when it is still to come',
    changes: {
      stockChanges: { stockchange_one: isAway(20, { why: 'lent-out', fromAt: inDays(5), toAt: inDays(6) }) },
    },
    findings: [
      {
        code: 'stock-away-short',
        about: tables,
        message:
          '18 round tables of 18 are away from Sat 28 Nov 09:00 to Sun 29 Nov 09:00, which leaves 0, and layout banquet asks 15',
        fix: 'borrow 15, bring some back, or book a smaller layout for that time',
        field: null,
      },
      {
        code: 'stock-change-over-owned',
        about: { kind: 'stockChange', id: 'stockchange_one', name: 'round tables' },
        message: '20 round tables are lent out, the site owns 18',
        fix: 'enter 18 at most, or correct how many the site owns',
        field: '/of/count',
      },
    ],
  },
  {
    title: 'says when a device that layouts ask for is out of service and nothing stands in',
    changes: { stockChanges: { stockchange_one: deviceIsOut('projector') } },
    findings: [
      {
        code: 'device-out-of-service',
        about: projector,
        message:
          'the projector is out of service until Thu 3 Dec 09:00, nothing stands in for it, and layouts games floor and rows ask for it',
        fix: 'name a device that stands in, or book layouts that do without it until it is back',
        field: '/standInIds',
      },
    ],
  },
  {
    title: 'says when a device will be away, only as long as what stands in is away too',
    changes: {
      stockChanges: {
        stockchange_one: { ...deviceIsOut('projector'), fromAt: inDays(2), toAt: null },
        stockchange_two: { ...deviceIsOut('spare'), fromAt: inDays(3), toAt: inDays(5) },
      },
      equipment: {
        equipment_projector: { standInIds: ['equipment_spare'] },
        equipment_spare: spareProjector,
      },
    },
    findings: [
      {
        code: 'device-out-of-service',
        about: projector,
        message:
          'the projector is out of service from Thu 26 Nov 09:00 to Sat 28 Nov 09:00, nothing stands in for it, and layouts games floor and rows ask for it',
        fix: 'name a device that stands in, or book layouts that do without it until it is back',
        field: '/standInIds',
      },
    ],
  },
  {
    title: 'says when a device is lent out during a booking that asks for it',
    changes: {
      stockChanges: {
        stockchange_one: { ...deviceIsOut('sound'), why: 'lent-out', fromAt: inDays(4), toAt: inDays(11) },
      },
      bookings: {
        booking_games: booking('Games', 'main', 'games', 5, 5.2),
        booking_service: booking('Service', 'main', 'worship', 6, 6.2),
        booking_supper: booking('Harvest supper', 'main', 'banquet', 12, 12.2),
      },
    },
    findings: [
      {
        code: 'device-away-booked',
        about: sound,
        message:
          'the sound desk is lent out from Fri 27 Nov 09:00 to Fri 4 Dec 09:00, nothing stands in for it, and layout rows asks for it for “Service” (doors Sun 29 Nov 09:00)',
        fix: 'name a device that stands in, have it back by then, or give the booking a layout that does without it',
        field: '/standInIds',
      },
    ],
  },
  {
    title: 'says when a device is out of service twice at the same time',
    changes: {
      equipment: {
        equipment_projector: { standInIds: ['equipment_spare'] },
        equipment_spare: spareProjector,
      },
      stockChanges: {
        stockchange_first: { ...deviceIsOut('projector'), fromAt: inDays(2), toAt: inDays(9) },
        stockchange_second: { ...deviceIsOut('projector'), fromAt: inDays(5), toAt: inDays(6) },
        stockchange_third: { ...deviceIsOut('projector'), fromAt: inDays(9), toAt: null },
      },
    },
    findings: [
      {
        code: 'device-out-twice',
        about: { kind: 'stockChange', id: 'stockchange_second', name: 'projector' },
        message:
          'the projector is out of service twice at the same time, from Sat 28 Nov 09:00 to Sun 29 Nov 09:00',
        fix: 'take one of the two entries out of use, or correct their times',
        field: '/fromAt',
      },
    ],
  },
  {
    title:
      'says when there is no tool for a way in which the floor is cleaned, though there are tools for others',
    changes: { tools: { tool_bucket: null } },
    findings: [
      {
        code: 'tool-missing',
        about: policy,
        message:
          'after banquet the floor is to be cleaned by spot mop, and no tool is entered for that, as there is for sweep and dust mop',
        fix: 'enter the tool with how many there are (as it is, nobody ever waits for one), or clean in another way',
        field: '/cleaning/banquet',
      },
    ],
  },
  {
    title: 'says when all tools for a way of cleaning are away for a time',
    changes: {
      stockChanges: {
        stockchange_one: toolIsAway('mop', 1, { toAt: inDays(3) }),
        stockchange_two: toolIsAway('mop', 1, { fromAt: inDays(2) }),
      },
    },
    findings: [
      {
        code: 'tool-missing',
        about: { kind: 'tool', id: 'tool_mop', name: 'dust mop' },
        message:
          'all dust mops are away from Wed 25 Nov 09:00 to Thu 26 Nov 09:00, and the floor is to be cleaned by dust mop',
        fix: 'have one back or borrow one before something is booked, or clean in another way',
        field: null,
      },
    ],
  },
  {
    title: 'says when all of them are away in the turn after a booking that is cleaned so',
    changes: {
      stockChanges: {
        stockchange_mops: toolIsAway('mop', 2, { fromAt: inDays(5), toAt: inDays(7) }),
        stockchange_buckets: toolIsAway('bucket', 2, { fromAt: inDays(5), toAt: inDays(7) }),
      },
      bookings: {
        booking_games: booking('Games', 'main', 'games', 4, 4.2),
        booking_supper: { ...booking('Harvest supper', 'main', 'banquet', 5.3, 5.5), floorWet: true },
        booking_service: booking('Service', 'main', 'worship', 6, 6.2),
        booking_circle: booking('Circle', 'side', 'meeting', 6, 6.2),
      },
    },
    findings: [
      {
        code: 'tool-away-booked',
        about: { kind: 'tool', id: 'tool_bucket', name: 'mop and bucket' },
        message:
          'all mops and buckets are away from Sat 28 Nov 09:00 to Mon 30 Nov 09:00, and the floor is to be cleaned by spot mop and wet mop before “Service” (doors Sun 29 Nov 09:00)',
        fix: 'have one back by then or borrow one, or clean in another way',
        field: null,
      },
      {
        code: 'tool-away-booked',
        about: { kind: 'tool', id: 'tool_mop', name: 'dust mop' },
        message:
          'all dust mops are away from Sat 28 Nov 09:00 to Mon 30 Nov 09:00, and the floor is to be cleaned by dust mop before “Harvest supper” (doors Sat 28 Nov 16:12)',
        fix: 'have one back by then or borrow one, or clean in another way',
        field: null,
      },
    ],
  },
  {
    title: 'says when a store is closed all the time there is to turn a room for a booking that needs it',
    changes: {
      closures: {
        closure_store: {
          sectionIds: [],
          storagePlaceIds: ['storage_north'],
          fromAt: inDays(4.3),
          toAt: inDays(5.5),
          reason: 'rewiring',
        },
      },
      bookings: {
        booking_games: booking('Games', 'main', 'games', 4, 4.3),
        booking_supper: booking('Harvest supper', 'main', 'banquet', 5.2, 5.4),
        booking_circle: booking('Circle', 'side', 'meeting', 5.2, 5.4),
      },
    },
    findings: [
      {
        code: 'store-cut-off',
        about: { kind: 'closure', id: 'closure_store', name: 'rewiring' },
        message:
          'the north store is closed from Fri 27 Nov 16:12 to Sat 28 Nov 21:00 (rewiring), all the time there is to turn Main Hall for “Harvest supper” (doors Sat 28 Nov 13:48)',
        fix: 'open it for a while, have the pieces out before, or give the booking another time or layout',
        field: '/storagePlaceIds',
      },
    ],
  },
  {
    title: 'says the same of a passage on the way from it, by the hours when somebody is on duty',
    changes: {
      closures: {
        closure_lift: {
          sectionIds: [],
          passageIds: ['passage_lift'],
          fromAt: inDays(4.8),
          toAt: inDays(6),
          reason: 'lift test',
        },
      },
      layouts: {
        layout_small: {
          roomId: 'room_side',
          name: 'small circle',
          kind: 'meeting',
          seats: 20,
          furnishings: pieces({ chair: 20 }),
          equipment: [],
        },
      },
      bookings: {
        // Clear at 23:00, when everybody goes home; the lift is out from 04:12.
        booking_circle: booking('Circle', 'side', 'meeting', 4.5, 4 + 14 / 24),
        booking_small: booking('Reading group', 'side', 'small', 5.2, 5.4),
        booking_later: booking('Late circle', 'side', 'meeting', 7, 7.2),
        booking_service: booking('Service', 'main', 'worship', 5.2, 5.4),
      },
    },
    findings: [
      {
        code: 'store-cut-off',
        about: { kind: 'closure', id: 'closure_lift', name: 'lift test' },
        message:
          'the way from the north store to Side Room is closed from Sat 28 Nov 04:12 to Sun 29 Nov 09:00 (lift test), all the time there is to turn Side Room for “Reading group” (doors Sat 28 Nov 13:48)',
        fix: 'open it for a while, have the pieces out before, or give the booking another time or layout',
        field: '/passageIds',
      },
    ],
  },
  {
    title: 'says when a stand-in cannot be as layouts ask',
    changes: {
      equipment: {
        equipment_projector: { standInIds: ['equipment_spare'] },
        equipment_spare: {
          name: 'spare projector',
          sectionIds: ['section_main'],
          control: statesControl(['off', 'slides'], [step('off', 'slides'), step('slides', 'off')]),
        },
      },
    },
    findings: [
      {
        code: 'stand-in-cannot',
        about: projector,
        message:
          'the spare projector stands in for the projector and cannot be game input, which layouts ask for',
        fix: 'give the spare projector what it lacks, or let something else stand in',
        field: '/standInIds/0',
      },
    ],
  },
  {
    title: 'says when a hot lamp is said to light again sooner than it can',
    changes: {
      equipment: {
        equipment_projector: {
          restrikeSeconds: 1200,
          control: statesControl(
            ['off', 'slides', 'game-input'],
            [
              step('off', 'slides'),
              step('slides', 'off'),
              step('off', 'game-input', { seconds: 1200 }),
              step('game-input', 'off'),
            ],
          ),
        },
      },
    },
    findings: [
      {
        code: 'restrike-too-short',
        about: projector,
        message:
          'the projector goes through off with a hot lamp: off to slides in 60 s, lamp restrike is 20 min',
        fix: 'add transitions that leave the lamp on from one state to the other, or give this one the time the lamp needs',
        field: '/control/transitions/0/seconds',
      },
    ],
  },
  {
    title: 'says when a device is said to take a day to change, or hours to warm up',
    changes: {
      equipment: {
        ...projectorWith(
          step('off', 'slides', { seconds: 86_400 }),
          step('slides', 'off', { seconds: 3_600 }),
          step('slides', 'game-input'),
          step('game-input', 'slides'),
        ).equipment,
        equipment_sound: { warmUpSeconds: 5_400 },
        equipment_lights: {
          control: {
            kind: 'level',
            lowestPercent: 10,
            highestPercent: 100,
            canBeOff: true,
            homeSetting: { kind: 'level', levelPercent: 100 },
            setSeconds: 7_200,
            hands: 1,
            skill: null,
          },
        },
      },
    },
    findings: [
      {
        code: 'device-slow',
        about: lights,
        message: 'the house lights takes 2 h to be set',
        fix: 'correct the time: it is in seconds',
        field: '/control/setSeconds',
      },
      {
        code: 'device-slow',
        about: projector,
        message: 'the projector takes 24 h to get from off to slides',
        fix: 'correct the time: it is in seconds',
        field: '/control/transitions/0/seconds',
      },
      {
        code: 'device-slow',
        about: sound,
        message: 'the sound desk takes 90 min to warm up',
        fix: 'correct the time: it is in seconds',
        field: '/warmUpSeconds',
      },
    ],
  },
  {
    title: 'says when those who have a skill that a device needs are on no shift',
    changes: { shifts: { shift_rae: null } },
    findings: [
      {
        code: 'skill-off-duty',
        about: sound,
        message: 'nobody with the skill sound is on a shift: only Rae Quillfeather has it',
        fix: 'add a shift for one of them',
        field: '/control/transitions/0/skill',
      },
      {
        code: 'person-on-no-shift',
        about: rae,
        message: 'Rae Quillfeather is on no shift, so no plan counts on them',
        fix: 'add a shift for them, or take them off the crew',
        field: null,
      },
    ],
  },
  {
    title: 'says when a skill has expired',
    changes: {
      people: {
        person_rae: { skillDates: [{ skill: 'sound', lastDate: '2026-11-20' }] },
        person_ivo: { skills: ['sound'] },
      },
    },
    findings: [
      {
        code: 'skill-expired',
        about: rae,
        message: 'the skill sound of Rae Quillfeather ended on 2026-11-20',
        fix: 'enter the new last day once it is renewed, or take the skill off',
        field: '/skillDates/0/lastDate',
      },
    ],
  },
  {
    title: 'says when a minor has a skill that is for adults',
    changes: { people: { person_ivo: { adult: false, skills: ['rigging'] } } },
    findings: [
      {
        code: 'minor-with-adult-skill',
        about: ivo,
        message: 'Ivo Tanglewick is a minor and has the skill rigging, which is for adults',
        fix: 'take the skill off, or off the list of skills for adults in the policy',
        field: '/skills/0',
      },
    ],
  },
  {
    title: 'says when unnamed hands that may be minors have a skill that is for adults',
    changes: { shifts: { shift_crew: { crew: hands(4, { adults: false, skills: ['rigging'] }) } } },
    findings: [
      {
        code: 'minor-with-adult-skill',
        about: shift('crew', 'evening crew'),
        message:
          'the hands of shift evening crew may be minors and have the skill rigging, which is for adults',
        fix: 'take the skill off, or off the list of skills for adults in the policy',
        field: '/crew/skills/0',
      },
    ],
  },
  {
    title: 'says when somebody is on two shifts at once',
    changes: {
      shifts: {
        shift_stock: {
          name: 'stocktaking',
          crew: { kind: 'person', personId: 'person_rae' },
          times: { kind: 'once', startsAt: inDays(1), endsAt: inDays(1.1) },
        },
      },
    },
    findings: [
      {
        code: 'person-twice-on-duty',
        about: shift('stock', 'stocktaking'),
        message: 'Rae Quillfeather is on two shifts at once, Rae and stocktaking, from Tue 24 Nov 09:00',
        fix: 'change the times of one of them, or give it to somebody else',
        field: '/times',
      },
    ],
  },
  {
    title: 'says when a shift is there twice',
    changes: {
      shifts: {
        shift_crew2: { name: 'evening crew', crew: hands(4), times: weekly({ startsLocal: '17:00' }) },
      },
    },
    findings: [
      {
        code: 'shift-entered-twice',
        about: shift('crew2', 'evening crew'),
        message: 'shift evening crew of 4 hands is there twice with the same times, so its hands count twice',
        fix: 'take one of the two out of use, or give them names of their own if both are meant',
        field: null,
      },
    ],
  },
  {
    title: 'says when a shift never happens',
    changes: {
      shifts: {
        shift_friday: {
          name: 'Friday crew',
          crew: hands(3),
          times: weekly({ weekdays: [5], firstDate: '2026-11-24', lastDate: '2026-11-26' }),
        },
      },
    },
    findings: [
      {
        code: 'shift-never',
        about: shift('friday', 'Friday crew'),
        message:
          'shift Friday crew never happens: there is no Friday from 2026-11-24 to 2026-11-26 that is not taken out',
        fix: 'correct its days, or take it out of use',
        field: '/times',
      },
    ],
  },
  {
    title: 'says when exceptions take out every day of a shift',
    changes: {
      shifts: {
        shift_friday: {
          name: 'Friday crew',
          crew: hands(3),
          times: weekly({
            weekdays: [5],
            firstDate: '2026-11-24',
            lastDate: '2026-11-28',
            exceptions: [{ kind: 'off', date: '2026-11-27' }],
          }),
        },
      },
    },
    findings: [
      {
        code: 'shift-never',
        about: shift('friday', 'Friday crew'),
        message:
          'shift Friday crew never happens: there is no Friday from 2026-11-24 to 2026-11-28 that is not taken out',
        fix: 'correct its days, or take it out of use',
        field: '/times',
      },
    ],
  },
  {
    title: 'says when two rooms are of the same sections',
    changes: {
      rooms: {
        room_side2: {
          name: 'Parlour',
          sectionIds: ['section_side'],
          occupantLimitPosted: 60,
          homeLayoutId: 'layout_parlour',
          openingHours: [{ weekdays, opensLocal: '07:00', closesLocal: '23:30' }],
        },
      },
      layouts: {
        layout_parlour: {
          roomId: 'room_side2',
          name: 'bare',
          kind: 'other',
          seats: null,
          furnishings: [],
          equipment: [],
        },
      },
    },
    findings: [
      {
        code: 'rooms-alike',
        about: { kind: 'room', id: 'room_side2', name: 'Parlour' },
        message: 'room Parlour is of the same sections as room Side Room: it is one room entered twice',
        fix: 'take one of them out of use, or correct the sections; another use of a room is a layout',
        field: '/sectionIds',
      },
    ],
  },
  {
    title: 'says when two rooms, or two layouts of a room, have the same name',
    changes: {
      rooms: { room_side: { name: 'main hall' } },
      layouts: { layout_worship: { name: 'Banquet' }, layout_meeting: { name: 'banquet' } },
    },
    findings: [
      {
        code: 'name-twice',
        about: { ...side, name: 'main hall' },
        message: 'two rooms are called main hall',
        fix: 'give one of them another name, or take it out of use if it was entered twice',
        field: '/name',
      },
      {
        code: 'name-twice',
        about: layout('worship', 'Banquet'),
        message: 'two layouts of Main Hall are called Banquet',
        fix: 'give one of them another name, or take it out of use if it was entered twice',
        field: '/name',
      },
    ],
  },
  {
    title: 'says when a layout seats more than its chairs do',
    changes: { layouts: { layout_banquet: { furnishings: pieces({ table: 15, chair: 118, cloth: 15 }) } } },
    findings: [
      {
        code: 'seats-differ',
        about: banquet,
        message: 'layout banquet seats 120, with 15 round tables and 118 stacking chairs',
        fix: 'say that it seats 118, or correct its pieces',
        field: '/seats',
      },
    ],
  },
  {
    title: 'says when a layout has many more chairs than seats',
    changes: { layouts: { layout_meeting: { seats: 30 } } },
    findings: [
      {
        code: 'seats-differ',
        about: layout('meeting', 'circle'),
        message: 'layout circle seats 30, with 40 stacking chairs',
        fix: 'say that it seats 40, or correct its pieces',
        field: '/seats',
      },
    ],
  },
  {
    title: 'says when a layout seats more than the posted limit of its room',
    changes: {
      layouts: { layout_meeting: { seats: 70, furnishings: pieces({ chair: 70 }) } },
    },
    findings: [
      {
        code: 'seats-over-limit',
        about: layout('meeting', 'circle'),
        message: 'layout circle seats 70, the posted limit of Side Room is 60',
        fix: 'seat 60 at most, or correct the limit to what the sign says',
        field: '/seats',
      },
    ],
  },
  {
    title: 'says when a banquet seats more than its tables have places',
    changes: { layouts: { layout_banquet: { furnishings: pieces({ table: 14, chair: 120, cloth: 14 }) } } },
    findings: [
      {
        code: 'places-short',
        about: banquet,
        message: 'layout banquet seats 120, its 14 round tables have 112 places',
        fix: 'add tables, or say that it seats 112',
        field: '/seats',
      },
    ],
  },
  {
    title: 'says when a layout seats people at tables without chairs',
    changes: { layouts: { layout_banquet: { furnishings: pieces({ table: 15, cloth: 15 }) } } },
    findings: [
      {
        code: 'tables-without-chairs',
        about: banquet,
        message: 'layout banquet seats 120 at 15 round tables and has no chairs',
        fix: 'add the chairs',
        field: '/furnishings',
      },
    ],
  },
  {
    title: 'says when a layout is crowded',
    changes: {
      rooms: { room_side: { occupantLimitPosted: 160 } },
      layouts: { layout_meeting: { seats: 152, furnishings: pieces({ chair: 152 }) } },
      furnishings: { furnishing_chair: { countOwned: 310 } },
    },
    findings: [
      {
        code: 'layout-crowded',
        about: layout('meeting', 'circle'),
        message: 'layout circle seats 152 on 84 m²: 0.55 m² a guest, where 0.56 m² is tight',
        fix: 'seat 150 at most, or correct the area',
        field: '/seats',
      },
    ],
  },
  {
    title: 'says when the pieces of a layout cover more than the floor',
    changes: { furnishings: { furnishing_deck: { widthMetres: 8, depthMetres: 8 } } },
    findings: [
      {
        code: 'pieces-over-floor',
        about: layout('worship', 'rows'),
        message: 'the pieces of layout rows cover 418 m², the floor is 216 m²',
        fix: 'correct the counts of the layout, the sizes of the pieces or the area of the floor',
        field: '/furnishings',
      },
    ],
  },
  {
    title: 'says when pieces of a layout stand inside each other, and how many do',
    changes: {
      layouts: {
        layout_banquet: {
          furnishings: pieces({ table: 3, chair: 120, cloth: 3 }),
          seats: null,
          placements: [
            { furnishingId: 'furnishing_table', xMetres: 5, yMetres: 5 },
            { furnishingId: 'furnishing_table', xMetres: 6.3, yMetres: 5 },
            { furnishingId: 'furnishing_table', xMetres: 5, yMetres: 5 },
          ],
        },
      },
    },
    findings: [
      {
        code: 'placements-overlap',
        about: banquet,
        message:
          'in layout banquet a round table at 6.3 m, 5 m stands 0.22 m inside a round table; so does 1 more piece',
        fix: 'move them apart, or correct their sizes',
        field: '/placements/1',
      },
    ],
  },
  {
    title: 'says when a chair stands deeper in a table than it can be pushed under it',
    changes: {
      layouts: {
        layout_banquet: {
          placements: [
            { furnishingId: 'furnishing_table', xMetres: 5, yMetres: 5 },
            { furnishingId: 'furnishing_chair', xMetres: 5, yMetres: 5.7 },
          ],
        },
      },
    },
    findings: [
      {
        code: 'placements-overlap',
        about: banquet,
        message: 'in layout banquet a stacking chair at 5 m, 5.7 m stands 0.31 m inside a round table',
        fix: 'move them apart, or correct their sizes',
        field: '/placements/1',
      },
    ],
  },
  {
    title: 'says when a piece of a layout stands in a column, and lets it stand on a stage',
    changes: {
      rooms: {
        room_main: {
          fixedThings: [
            {
              name: 'Column',
              outline: { kind: 'rectangle', xMetres: 5, yMetres: 5, widthMetres: 0.6, depthMetres: 0.6 },
            },
            {
              name: 'Stage',
              outline: { kind: 'rectangle', xMetres: 12, yMetres: 4, widthMetres: 6, depthMetres: 4 },
              piecesMayStandOn: true,
            },
          ],
        },
      },
      layouts: {
        layout_banquet: {
          furnishings: pieces({ table: 3, chair: 120, cloth: 3 }),
          seats: null,
          placements: [
            { furnishingId: 'furnishing_table', xMetres: 15, yMetres: 6 },
            { furnishingId: 'furnishing_table', xMetres: 5.5, yMetres: 5.5 },
            { furnishingId: 'furnishing_table', xMetres: 8, yMetres: 8 },
          ],
        },
      },
    },
    findings: [
      {
        code: 'piece-on-fixed-thing',
        about: banquet,
        message: 'in layout banquet a round table at 5.5 m, 5.5 m stands where the fixed thing Column is',
        fix: 'move it aside, or say of the thing that pieces may stand on it',
        field: '/placements/1',
      },
    ],
  },
  {
    title: 'says when the floor of a room is not the area of its sections',
    changes: { rooms: { room_main: { floor: { kind: 'rectangle', widthMetres: 18, depthMetres: 11 } } } },
    findings: [
      {
        code: 'floor-area-differs',
        about: main,
        message: 'the floor of Main Hall is 198 m², its sections are 216 m² together',
        fix: 'measure again and correct the floor or the sections',
        field: '/floor',
      },
    ],
  },
  {
    title: 'says when zones leave out part of the floor',
    changes: { rooms: { room_main: { zones: [zone('front', 0, 6)] } } },
    findings: [
      {
        code: 'zones-off-floor',
        about: main,
        message: 'the zones of Main Hall are 108 m² together, its floor is 216 m²',
        fix: 'draw zones over the rest of the floor, or remove them all to have equal strips',
        field: '/zones',
      },
    ],
  },
  {
    title: 'says when zones overlap',
    changes: { rooms: { room_main: { zones: [zone('front', 0, 8), zone('back', 6, 12)] } } },
    findings: [
      {
        code: 'zones-overlap',
        about: main,
        message: 'zones front and back of Main Hall overlap by 36 m², which is worked twice',
        fix: 'draw the zones so that they meet without overlapping, or remove them all to have equal strips',
        field: '/zones/1/corners',
      },
    ],
  },
  {
    title: 'says when a zone is drawn twice, though its areas add up to the floor',
    changes: { rooms: { room_main: { zones: [zone('front', 0, 6), zone('front again', 0, 6)] } } },
    findings: [
      {
        code: 'zones-overlap',
        about: main,
        message: 'zones front and front again of Main Hall overlap by 108 m², which is worked twice',
        fix: 'draw the zones so that they meet without overlapping, or remove them all to have equal strips',
        field: '/zones/1/corners',
      },
    ],
  },
  {
    title: 'says when zones reach beyond the floor',
    changes: { rooms: { room_main: { zones: [zone('front', 0, 6), zone('back', 6, 15)] } } },
    findings: [
      {
        code: 'zones-off-floor',
        about: main,
        message: 'the zones of Main Hall are 270 m² together, its floor is 216 m²',
        fix: 'draw the zones within the floor, correct the floor, or remove them all to have equal strips',
        field: '/zones',
      },
    ],
  },
  {
    title: 'says when an exit is nowhere near the floor of any room over its section',
    changes: {
      exits: {
        exit_east: { position: { xMetres: 18.9, yMetres: 6 } },
        exit_west: { position: { xMetres: 500, yMetres: 6 } },
        exit_side: { position: { xMetres: 500, yMetres: 500 } },
      },
    },
    findings: [
      {
        code: 'exit-off-floor',
        about: { kind: 'exit', id: 'exit_west', name: 'West doors' },
        message: 'exit West doors is 482 m off the floor of Main Hall, so no distance to it is right',
        fix: 'measure its place again, from the corner that the floor is measured from',
        field: '/position',
      },
    ],
  },
  {
    title: 'says when the way from a store comes onto the floor nowhere near it',
    changes: {
      storagePlaces: {
        storage_north: {
          routes: [
            {
              roomId: 'room_main',
              distanceMetres: 25,
              passageIds: ['passage_door'],
              doorAt: { xMetres: 24, yMetres: 6 },
            },
            { roomId: 'room_side', distanceMetres: 40, passageIds: ['passage_door', 'passage_lift'] },
          ],
        },
      },
    },
    findings: [
      {
        code: 'store-door-off-floor',
        about: north,
        message:
          'the way from north store comes onto the floor of Main Hall 6 m off it, so which pieces go out is decided from the wrong place',
        fix: 'measure the place of the door again, from the corner that the floor is measured from',
        field: '/routes/0/doorAt',
      },
    ],
  },
  {
    title: 'says when a fixed thing right across a room cuts off what stands behind it',
    changes: {
      rooms: {
        room_main: {
          fixedThings: [
            {
              name: 'Bar',
              outline: { kind: 'rectangle', xMetres: 10, yMetres: 0, widthMetres: 0.5, depthMetres: 12 },
            },
          ],
        },
      },
      layouts: {
        layout_banquet: {
          furnishings: pieces({ table: 2, chair: 120, cloth: 2 }),
          seats: null,
          placements: [
            { furnishingId: 'furnishing_table', xMetres: 5, yMetres: 6 },
            { furnishingId: 'furnishing_table', xMetres: 15, yMetres: 6 },
          ],
        },
      },
    },
    findings: [
      {
        code: 'floor-cut',
        about: main,
        message:
          'in layout banquet no way leads along the floor of Main Hall from the round table at 5 m, 6 m to the round table at 15 m, 6 m: fixed things are in between',
        fix: 'leave open in the outlines of the fixed things what people walk through, or correct the places',
        field: '/fixedThings',
      },
    ],
  },
  {
    title: 'says when one person handles what takes two',
    changes: {
      furnishings: {
        furnishing_deck: { handsPerPiece: 1, massKilograms: 48, adultsOnly: false },
        furnishing_table: { handsPerPiece: 1, massKilograms: 24, widthMetres: 1.83, depthMetres: 1.83 },
      },
    },
    findings: [
      {
        code: 'hands-too-few',
        about: decks,
        message: 'one stage deck is handled by one person, two is usual',
        fix: 'have two handle it, or correct what kind of piece it is',
        field: '/handsPerPiece',
      },
      {
        code: 'hands-too-few',
        about: tables,
        message: 'one round table is handled by one person, two is usual',
        fix: 'have two handle it, or correct what kind of piece it is',
        field: '/handsPerPiece',
      },
    ],
  },
  {
    title: 'says when a piece is too heavy for those who lift it',
    changes: { furnishings: { furnishing_table: { handsPerPiece: 1, massKilograms: 27 } } },
    findings: [
      {
        code: 'hands-too-few',
        about: tables,
        message:
          'one round table of 27 kg is lifted by one person, 27 kg each: more than 25 kg is too much for most people',
        fix: 'have more people handle it, or correct what it weighs',
        field: '/handsPerPiece',
      },
    ],
  },
  {
    title: 'says when many chairs are carried one by one',
    changes: { furnishings: { furnishing_chair: { method: 'carry', trolley: null } } },
    findings: [
      {
        code: 'chairs-without-trolley',
        about: chairs,
        message: 'layout rows has 150 stacking chairs, carried one by one: there is no trolley for them',
        fix: 'enter the trolleys if there are some; if not, one is the first thing to buy',
        field: '/trolley',
      },
    ],
  },
  {
    title: 'says when what is used most stands behind what is used least',
    changes: { storagePlaces: { storage_north: { depthOrder: ['furnishing_table', 'furnishing_chair'] } } },
    findings: [
      {
        code: 'depth-order-backwards',
        about: north,
        message:
          'in the north store the stacking chairs (4 layouts) stand behind the round tables (1 layout)',
        fix: 'put the stacking chairs nearer the door',
        field: '/depthOrder',
      },
    ],
  },
  {
    title: 'says when a doorway is narrower than a trolley',
    changes: { passages: { passage_door: { clearWidthMetres: 0.65 } } },
    findings: [
      {
        code: 'passage-too-narrow',
        about: passage('door', 'store door'),
        message: 'the store door is 0.65 m clear, a trolley of stacking chairs is about 0.7 m wide',
        fix: 'measure again, or lead the route another way',
        field: '/clearWidthMetres',
      },
    ],
  },
  {
    title: 'says when a piece that cannot be tipped is wider than a doorway',
    changes: {
      furnishings: {
        furnishing_piano: {
          name: 'piano',
          namePlural: 'pianos',
          kind: 'other',
          countOwned: 1,
          massKilograms: 250,
          storagePlaceId: 'storage_north',
          method: 'roll',
          handsPerPiece: 4,
          setPersonSeconds: null,
          strikePersonSeconds: null,
          trolley: null,
          widthMetres: 1.6,
          depthMetres: 1.5,
        },
      },
      layouts: { layout_worship: { furnishings: pieces({ chair: 150, deck: 6, piano: 1 }) } },
    },
    findings: [
      {
        code: 'passage-too-narrow',
        about: passage('door', 'store door'),
        message: 'the store door is 1.4 m clear, one piano is 1.5 m wide',
        fix: 'measure again, or lead the route another way',
        field: '/clearWidthMetres',
      },
    ],
  },
  {
    title: 'says when a lift carries less than a full trolley',
    changes: { passages: { passage_lift: { loadLimitKilograms: 100 } } },
    findings: [
      {
        code: 'passage-load-too-low',
        about: passage('lift', 'goods lift'),
        message:
          'the goods lift carries 100 kg, a trolley with 25 stacking chairs is 150 kg without the trolley',
        fix: 'load fewer pieces on a trolley, or lead the route another way',
        field: '/loadLimitKilograms',
      },
    ],
  },
  {
    title: 'says when trolleys would have to go by stairs',
    changes: {
      passages: {
        passage_lift: { name: 'back stairs', kind: 'stairs', rideSeconds: 0, loadLimitKilograms: null },
      },
    },
    findings: [
      {
        code: 'trolley-on-stairs',
        about: north,
        message:
          'the way from the north store to Side Room goes by stairs (back stairs), where no trolley of stacking chairs can go',
        fix: 'give the route by ramp or lift if there is one, or keep these pieces on that floor',
        field: '/routes/1/passageIds',
      },
    ],
  },
  {
    title: 'says when the policy wants no time to spare',
    changes: { policy: { slackWantedSeconds: 0 } },
    findings: [
      {
        code: 'slack-none',
        about: policy,
        message: 'the policy wants no time to spare before doors, so nothing is ever tight',
        fix: 'want a few minutes: five is usual',
        field: '/slackWantedSeconds',
      },
    ],
  },
  {
    title: 'says when a crew is said to be quicker than a practised one',
    changes: { policy: { paceFactor: 0.6 } },
    findings: [
      {
        code: 'pace-unusual',
        about: policy,
        message: 'the crew is said to need 0.6 of the time of a practised one',
        fix: 'say 1 for a practised crew and about 1.5 for volunteers, until times are recorded',
        field: '/paceFactor',
      },
    ],
  },
  {
    title: 'says when a crew is said to be far slower than crews are',
    changes: { policy: { paceFactor: 4 } },
    findings: [
      {
        code: 'pace-unusual',
        about: policy,
        message: 'the crew is said to need 4 times as long as a practised one',
        fix: 'say 1 for a practised crew and about 1.5 for volunteers, until times are recorded',
        field: '/paceFactor',
      },
    ],
  },
  {
    title: 'says when the policy leaves nobody time to breathe',
    changes: { policy: { allowanceShare: 0 } },
    findings: [
      {
        code: 'allowance-none',
        about: policy,
        message: 'the policy adds no time for rest and delay',
        fix: 'add 10 to 20 % of the work',
        field: '/allowanceShare',
      },
    ],
  },
  {
    title: 'says when minors may lift more than is cautious',
    changes: { policy: { minorMassLimitKilograms: 25 } },
    findings: [
      {
        code: 'minor-limit-high',
        about: policy,
        message: 'minors may lift 25 kg, and half of what is advised for an adult is about 13 kg',
        fix: 'set 10 kg, unless somebody has assessed it',
        field: '/minorMassLimitKilograms',
      },
    ],
  },
  {
    title: 'says when layouts of two rooms together ask more than the site owns',
    changes: { furnishings: { furnishing_chair: { countOwned: 180 } } },
    findings: [
      {
        code: 'layouts-together-short',
        about: chairs,
        message:
          'layouts rows and circle can stand at the same time and together ask 190 stacking chairs, the site owns 180',
        fix: 'do not book both at once, or have 10 more',
        field: '/countOwned',
      },
    ],
  },
  {
    title: 'says when a skill expires within a month',
    changes: { people: { person_rae: { skillDates: [{ skill: 'sound', lastDate: '2026-12-10' }] } } },
    findings: [
      {
        code: 'skill-expires-soon',
        about: rae,
        message: 'the skill sound of Rae Quillfeather ends on 2026-12-10',
        fix: 'have it renewed and enter the new last day',
        field: '/skillDates/0/lastDate',
      },
    ],
  },
  {
    title: 'says when somebody is on no shift, by id where the name is not known',
    changes: { people: { person_oda: { adult: true, skills: [] } } },
    findings: [
      {
        code: 'person-on-no-shift',
        about: { kind: 'person', id: 'person_oda', name: 'person_oda' },
        message: 'person_oda is on no shift, so no plan counts on them',
        fix: 'add a shift for them, or take them off the crew',
        field: null,
      },
    ],
  },
  {
    title: 'says when a weekly shift has ended',
    changes: {
      shifts: {
        shift_summer: { name: 'summer crew', crew: hands(3), times: weekly({ lastDate: '2026-10-31' }) },
      },
    },
    findings: [
      {
        code: 'shift-ended',
        about: shift('summer', 'summer crew'),
        message: 'shift summer crew ended on 2026-10-31',
        fix: 'give it a later last day, or take it out of use',
        field: '/times/lastDate',
      },
    ],
  },
  {
    title: 'says on which weekdays a room is open and nobody is on duty',
    changes: {
      shifts: {
        shift_rae: { times: weekly({ weekdays: weekdays }) },
        shift_ivo: { times: weekly({ weekdays: weekdays }) },
        shift_crew: { times: weekly({ weekdays: weekdays }) },
      },
      rooms: {
        room_side: { openingHours: [{ weekdays: weekdays, opensLocal: '07:00', closesLocal: '23:30' }] },
      },
    },
    findings: [
      {
        code: 'room-open-unstaffed',
        about: main,
        message: 'Main Hall is open on Saturdays and Sundays, when nobody is on duty in the next 28 days',
        fix: 'add shifts for these days, or shorten the opening hours',
        field: '/openingHours',
      },
    ],
  },
  {
    title: 'says when nothing tells what stands in a room at first',
    changes: { rooms: { room_side: { homeLayoutId: null } } },
    findings: [
      {
        code: 'room-no-home-layout',
        about: side,
        message: 'Side Room has no home layout, so a bare floor is taken to stand there at first',
        fix: 'say what stands when nothing else was set up, if anything does',
        field: '/homeLayoutId',
      },
    ],
  },
  {
    title: 'says when a room has no opening hours',
    changes: { rooms: { room_side: { openingHours: null } } },
    findings: [
      {
        code: 'room-no-opening-hours',
        about: side,
        message: 'Side Room has no opening hours, so it can be booked at any hour of the night',
        fix: 'enter its opening hours, unless it is always open',
        field: '/openingHours',
      },
    ],
  },
  {
    title: 'says when no exit of a room is free of steps',
    changes: {
      exits: {
        exit_side: { stepFree: false },
        exit_yard: { stepFree: false },
        exit_east: { stepFree: false },
      },
    },
    findings: [
      {
        code: 'exits-not-step-free',
        about: side,
        message: 'none of the 2 exits of Side Room is free of steps',
        fix: 'agree how guests in wheelchairs get in, and out when it burns, or correct the exits',
        field: null,
      },
    ],
  },
  {
    title: 'says when of two rooms that hear each other only one says so',
    changes: { rooms: { room_side: { acousticallyJoinedRoomIds: [] } } },
    findings: [
      {
        code: 'joined-one-sided',
        about: main,
        message:
          'Main Hall says that Side Room hears it, and Side Room does not say so of Main Hall: it is taken to hold for both',
        fix: 'say it on Side Room as well, or remove it here',
        field: '/acousticallyJoinedRoomIds/0',
      },
    ],
  },
  {
    title: 'says when a banquet has fewer cloths than tables',
    changes: { layouts: { layout_banquet: { furnishings: pieces({ table: 15, chair: 120, cloth: 12 }) } } },
    findings: [
      {
        code: 'cloths-short',
        about: banquet,
        message: 'layout banquet has 15 tables and 12 cloths',
        fix: 'add 3 cloths, unless the tables stay bare',
        field: '/furnishings',
      },
    ],
  },
  {
    title: 'says when there are cloths for one meal, and not for the next',
    changes: { furnishings: { furnishing_cloth: { countOwned: 24 } } },
    findings: [
      {
        code: 'linen-for-one-use',
        about: furnishing('cloth', 'table cloth'),
        message:
          'layout banquet takes 15 table cloths and the site owns 24: while those of one meal are in the wash, 6 are missing for the next',
        fix: 'own 6 more, or leave time to wash between two meals',
        field: '/countOwned',
      },
    ],
  },
  {
    title: 'says when two layouts differ in nothing but their name',
    changes: {
      layouts: {
        layout_ring: {
          roomId: 'room_side',
          name: 'ring',
          kind: 'meeting',
          seats: 40,
          furnishings: pieces({ chair: 40 }),
          equipment: [],
        },
      },
    },
    findings: [
      {
        code: 'layouts-alike',
        about: layout('ring', 'ring'),
        message: 'layout ring is no different from layout circle',
        fix: 'take one of them out of use, or add what makes the difference',
        field: null,
      },
    ],
  },
  {
    title: 'says when no layout uses a furnishing',
    changes: { furnishings: { furnishing_bench: bench } },
    findings: [
      {
        code: 'furnishing-never-used',
        about: furnishing('bench', 'bench'),
        message: 'no layout uses the benches',
        fix: 'add them to the layouts they belong to, or take them out of use',
        field: null,
      },
    ],
  },
  {
    title: 'says when no layout sets a device',
    changes: {
      equipment: {
        equipment_fan: {
          name: 'ceiling fan',
          sectionIds: ['section_main'],
          control: statesControl(['off', 'on'], [step('off', 'on'), step('on', 'off')]),
        },
      },
    },
    findings: [
      {
        code: 'device-never-set',
        about: device('fan', 'ceiling fan'),
        message: 'no layout sets the ceiling fan',
        fix: 'say in the layouts that need it how it must be, or take it out of use',
        field: null,
      },
    ],
  },
  {
    title: 'says when a layout is silent on a device that another room shares and needs',
    changes: {
      equipment: {
        equipment_vent: {
          name: 'ventilation',
          sectionIds: ['section_main', 'section_side'],
          control: statesControl(['off', 'on'], [step('off', 'on'), step('on', 'off')]),
        },
      },
      layouts: {
        layout_worship: { equipment: states({ sound: 'music', projector: 'slides', vent: 'on' }) },
      },
    },
    findings: [
      {
        code: 'shared-device-unnamed',
        about: layout('meeting', 'circle'),
        message:
          'the ventilation stands in Main Hall too; layout circle does not name it, so it wants it off, and keeps out rows, which wants it on',
        fix: 'say in circle how the ventilation must be',
        field: '/equipment',
      },
    ],
  },
  {
    title: 'says when a time set on a furnishing is far from what is usual',
    changes: { furnishings: { furnishing_chair: { setPersonSeconds: 60 } } },
    findings: [
      {
        code: 'rate-unusual',
        about: chairs,
        message: 'to set one stacking chair takes 60 person-seconds, usual is 6 to 12',
        fix: 'check the figure: it is for one piece and one person, or leave it to the default',
        field: '/setPersonSeconds',
      },
    ],
  },
  {
    title: 'says when a rate that the site has set is far from what is usual, and passes over learned ones',
    changes: {
      rateSet: {
        number: 2,
        name: 'ours',
        rates: { ...DEFAULT_RATES, binPersonSeconds: 3, wipeTablePersonSeconds: 600 },
        marks: {
          binPersonSeconds: { origin: 'set', source: 'guessed' },
          wipeTablePersonSeconds: { origin: 'learned', source: 'recorded times' },
        },
      },
    },
    findings: [
      {
        code: 'rate-unusual',
        about: { kind: 'rateSet', id: 'rateset_one', name: 'ours' },
        message: 'binPersonSeconds is 3, usual is 60 to 120',
        fix: 'check the unit and the figure, or record some turns and let it be learned',
        field: '/rates/binPersonSeconds',
      },
    ],
  },
  {
    title: 'says when a rate for a kind of piece is far from what is usual',
    changes: {
      rateSet: {
        number: 2,
        name: 'ours',
        rates: {
          ...DEFAULT_RATES,
          fromTrolley: {
            ...DEFAULT_RATES.fromTrolley,
            'stacking-chair': { setPersonSeconds: 90, strikePersonSeconds: 8 },
          },
        },
        marks: { 'fromTrolley.stacking-chair.setPersonSeconds': { origin: 'set', source: 'stopwatch' } },
      },
    },
    findings: [
      {
        code: 'rate-unusual',
        about: { kind: 'rateSet', id: 'rateset_one', name: 'ours' },
        message: 'fromTrolley.stacking-chair.setPersonSeconds is 90, usual is 6 to 12',
        fix: 'check the unit and the figure, or record some turns and let it be learned',
        field: '/rates/fromTrolley/stacking-chair/setPersonSeconds',
      },
    ],
  },
  {
    title: 'says when a piece is far heavier than its kind usually is',
    changes: { furnishings: { furnishing_table: { massKilograms: 270 } } },
    findings: [
      {
        code: 'mass-unusual',
        about: tables,
        message: 'one round table weighs 270 kg, usual is 18 kg to 50 kg',
        fix: 'weigh one piece and correct it',
        field: '/massKilograms',
      },
    ],
  },
  {
    title: 'says in grams when a piece is far lighter than its kind usually is',
    changes: { furnishings: { furnishing_table: { massKilograms: 0.001 } } },
    findings: [
      {
        code: 'mass-unusual',
        about: tables,
        message: 'one round table weighs 1 g, usual is 18 kg to 50 kg',
        fix: 'weigh one piece and correct it',
        field: '/massKilograms',
      },
    ],
  },
  {
    title: 'says it in ounces where the site reads pounds',
    changes: { site: { units: 'us' }, furnishings: { furnishing_table: { massKilograms: 0.001 } } },
    findings: [
      {
        code: 'mass-unusual',
        about: tables,
        message: 'one round table weighs 0.035 oz, usual is 39.7 lb to 110 lb',
        fix: 'weigh one piece and correct it',
        field: '/massKilograms',
      },
    ],
  },
  {
    title: 'says when nothing is cleaned after a banquet',
    changes: {
      policy: { cleaning: { worship: [], banquet: [], games: [], overflow: [], meeting: [], other: [] } },
    },
    findings: [
      {
        code: 'food-not-cleaned',
        about: policy,
        message: 'the policy has nothing cleaned after a banquet',
        fix: 'say at least sweep and spot mop, or vacuum on carpet',
        field: '/cleaning/banquet',
      },
    ],
  },
]
