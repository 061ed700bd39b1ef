/** The smallest change to the clean site that brings up each finding, and that finding alone. */
import type { Finding } from '../../../src/domain/finding.ts'
import { DEFAULT_RATES } from '../../../src/scheduler/network/default-rates.ts'
import { type Changes, hands, inDays, pieces, states, statesControl, step, weekly } from './a-clean-site.ts'

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
          'Side Room has 1 exit for an occupant load of 61, and 2 are asked for (International Building Code)',
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
    },
    findings: [
      {
        code: 'exits-all-closed',
        about: { kind: 'closure', id: 'closure_west', name: 'paving' },
        message: 'all 2 exits of Main Hall are closed from Sat 28 Nov 09:00, and the room is not',
        fix: 'close Main Hall for that time too, or leave an exit open',
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
        message: '5 round tables of 18 are away now, which leaves 13, and layout banquet asks 15',
        fix: 'borrow 2, bring some back, or book a smaller layout until then',
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
          'the projector is out of service now, nothing stands in for it, and layouts games floor and rows ask for it',
        fix: 'name a device that stands in, or book layouts that do without it until it is back',
        field: '/standInIds',
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
        code: 'zones-off-floor',
        about: main,
        message: 'the zones of Main Hall are 252 m² together, its floor is 216 m²',
        fix: 'draw the zones so that they meet without overlapping, or remove them all to have equal strips',
        field: '/zones',
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
