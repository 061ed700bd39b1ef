/** What is ordinary in a hall and must bring up nothing. */
import {
  booking,
  type Changes,
  hands,
  inDays,
  pieces,
  states,
  statesControl,
  step,
  strip,
  weekly,
} from './a-clean-site.ts'

interface Silence {
  /** Reads on from `a check of the set-up is silent`. */
  readonly title: string
  readonly changes: Changes
}

const everyDay = [1, 2, 3, 4, 5, 6, 7]
const openingHours = [{ weekdays: everyDay, opensLocal: '07:00', closesLocal: '23:30' }]

export const silences: readonly Silence[] = [
  {
    title: 'about half of a hall that has no home layout of its own',
    changes: {
      rooms: {
        room_whole: {
          name: 'Whole House',
          sectionIds: ['section_main', 'section_side'],
          occupantLimitPosted: 280,
          homeLayoutId: null,
          openingHours,
        },
      },
      layouts: {
        layout_whole: {
          roomId: 'room_whole',
          name: 'assembly',
          kind: 'worship',
          seats: 250,
          furnishings: pieces({ chair: 250 }),
          equipment: [],
        },
      },
      storagePlaces: {
        storage_north: {
          routes: ['room_main', 'room_side', 'room_whole'].map((roomId) => ({ roomId, distanceMetres: 30 })),
        },
      },
    },
  },
  {
    title: 'about a few chairs more than seats',
    changes: { layouts: { layout_banquet: { furnishings: pieces({ table: 15, chair: 128, cloth: 15 }) } } },
  },
  {
    title: 'about seats where no chairs are listed: they may be fixed to the floor',
    changes: { layouts: { layout_worship: { furnishings: pieces({ deck: 6 }) } } },
  },
  {
    title: 'about a reception where people stand at tables',
    changes: { layouts: { layout_banquet: { seats: null, furnishings: pieces({ table: 15, cloth: 15 }) } } },
  },
  {
    title: 'about bare tables at a site that owns no cloths',
    changes: {
      furnishings: { furnishing_cloth: null },
      layouts: { layout_banquet: { furnishings: pieces({ table: 15, chair: 120 }) } },
    },
  },
  {
    title: 'about tables that do not say how many places they have',
    changes: { furnishings: { furnishing_table: { seatsPerPiece: null } } },
  },
  {
    title: 'about a lamp that is lit from cold sooner than it restrikes',
    changes: { equipment: { equipment_projector: { restrikeSeconds: 1200 } } },
  },
  {
    title: 'about pieces that are borrowed until further notice and wanted',
    changes: {
      stockChanges: {
        stockchange_one: {
          of: { kind: 'furnishing', furnishingId: 'furnishing_table', count: 2 },
          why: 'borrowed',
          fromAt: inDays(-30),
          toAt: null,
        },
      },
      storagePlaces: {
        storage_north: { limits: [{ furnishingId: 'furnishing_table', countMost: 20 }] },
      },
      layouts: { layout_banquet: { furnishings: pieces({ table: 20, chair: 120, cloth: 20 }) } },
    },
  },
  {
    title: 'about pieces out of service that no layout misses',
    changes: {
      stockChanges: {
        stockchange_one: {
          of: { kind: 'furnishing', furnishingId: 'furnishing_table', count: 3 },
          why: 'out-of-service',
          fromAt: inDays(-30),
          toAt: null,
        },
      },
    },
  },
  {
    title: 'about a device out of service that another one stands in for',
    changes: {
      stockChanges: {
        stockchange_one: {
          of: { kind: 'equipment', equipmentId: 'equipment_projector' },
          why: 'out-of-service',
          fromAt: inDays(-1),
          toAt: inDays(3),
        },
      },
      equipment: {
        equipment_projector: { standInIds: ['equipment_spare'] },
        equipment_spare: {
          name: 'spare projector',
          sectionIds: ['section_main'],
          control: statesControl(
            ['off', 'slides', 'game-input'],
            [
              step('off', 'slides'),
              step('slides', 'off'),
              step('off', 'game-input'),
              step('game-input', 'off'),
            ],
          ),
        },
      },
    },
  },
  {
    title: 'about a device that waits for the movable wall of its room',
    changes: {
      equipment: {
        equipment_wall: {
          name: 'folding wall',
          sectionIds: ['section_main'],
          kind: 'movable-wall',
          control: statesControl(['shut', 'open'], [step('shut', 'open'), step('open', 'shut')]),
        },
        equipment_projector: {
          control: statesControl(
            ['off', 'slides', 'game-input'],
            [
              step('off', 'slides', { needsWallOpen: true }),
              step('slides', 'off'),
              step('slides', 'game-input'),
              step('game-input', 'slides'),
            ],
          ),
        },
      },
      layouts: {
        layout_worship: {
          equipment: states({ sound: 'music', projector: 'slides', wall: 'open' }),
        },
      },
    },
  },
  {
    title: 'about a skill that nobody has for steps that no layout leads to',
    changes: {
      equipment: {
        equipment_sound: {
          control: statesControl(
            ['off', 'speech', 'music', 'recording'],
            [
              step('off', 'speech', { skill: 'sound' }),
              step('off', 'music', { skill: 'sound' }),
              step('speech', 'off'),
              step('music', 'off'),
              step('off', 'recording', { skill: 'recording' }),
              step('recording', 'off'),
            ],
          ),
        },
      },
    },
  },
  {
    title: 'about a skill that unnamed hands have',
    changes: {
      people: { person_rae: { skills: [] } },
      shifts: { shift_crew: { crew: hands(4, { skills: ['sound'] }) } },
    },
  },
  {
    title: 'about a skill that was renewed in time',
    changes: {
      people: {
        person_rae: {
          skillDates: [
            { skill: 'sound', firstDate: '2025-11-01', lastDate: '2026-10-31' },
            { skill: 'sound', firstDate: '2026-11-01', lastDate: '2027-10-31' },
          ],
        },
      },
    },
  },
  {
    title: 'about minors on a crew with adults',
    changes: {
      people: { person_ivo: { adult: false } },
      shifts: { shift_crew: { crew: hands(4, { adults: false }) } },
    },
  },
  {
    title: 'about two crews on duty at the same time',
    changes: {
      shifts: {
        shift_second: { name: 'second crew', crew: hands(4), times: weekly({ startsLocal: '17:00' }) },
      },
    },
  },
  {
    title: 'about a shift for once that was last week',
    changes: {
      shifts: {
        shift_once: {
          name: 'extra hands',
          crew: hands(2),
          times: { kind: 'once', startsAt: inDays(-7), endsAt: inDays(-6.8) },
        },
      },
    },
  },
  {
    title: 'about two shifts of one person that meet, end to start',
    changes: {
      shifts: {
        shift_rae: { times: weekly({ endsLocal: '15:00' }) },
        shift_rae2: {
          name: 'Rae, late',
          crew: { kind: 'person', personId: 'person_rae' },
          times: weekly({ startsLocal: '15:00' }),
        },
      },
    },
  },
  {
    title:
      'about one closed exit of two where one is enough, and about all exits of a room that is closed itself',
    changes: {
      rooms: { room_side: { occupantLimitPosted: 45 } },
      closures: {
        closure_yard: {
          sectionIds: [],
          exitIds: ['exit_yard'],
          fromAt: inDays(3),
          toAt: inDays(4),
          reason: 'paving',
        },
        closure_side: {
          sectionIds: ['section_side'],
          exitIds: ['exit_side', 'exit_yard'],
          fromAt: inDays(1),
          toAt: inDays(2),
          reason: 'paving',
        },
        closure_past: {
          sectionIds: [],
          exitIds: ['exit_side', 'exit_yard'],
          fromAt: inDays(-9),
          toAt: inDays(-2),
          reason: 'paving',
        },
      },
    },
  },
  {
    title: 'about tables that go through a narrow door on edge, and stairs that pieces are carried on',
    changes: {
      passages: { passage_door: { clearWidthMetres: 0.9 } },
      furnishings: {
        furnishing_stool: {
          name: 'stool',
          namePlural: 'stools',
          kind: 'other',
          countOwned: 10,
          massKilograms: 4,
          storagePlaceId: 'storage_loft',
          method: 'carry',
          handsPerPiece: 1,
          setPersonSeconds: null,
          strikePersonSeconds: null,
          trolley: null,
        },
      },
      storagePlaces: {
        storage_loft: {
          name: 'loft',
          routes: [{ roomId: 'room_side', distanceMetres: 20, passageIds: ['passage_stairs'] }],
        },
      },
      layouts: { layout_meeting: { furnishings: pieces({ chair: 40, stool: 6 }) } },
    },
  },
  {
    title: 'about a second layout of the same pieces for another kind of use',
    changes: {
      layouts: {
        layout_overflow: {
          roomId: 'room_side',
          name: 'overflow',
          kind: 'overflow',
          seats: 40,
          furnishings: pieces({ chair: 40 }),
          equipment: [],
        },
      },
    },
  },
  {
    title: 'about an ordinary week of bookings',
    changes: {
      bookings: {
        booking_past: booking('Yesterday', 'main', 'banquet', -1, -0.8),
        booking_games: booking('Games', 'main', 'games', 1, 1.2),
        booking_supper: { ...booking('Harvest supper', 'main', 'banquet', 2, 2.2), foodServed: true },
        booking_service: booking('Service', 'main', 'worship', 3, 3.2),
        booking_circle: booking('Circle', 'side', 'meeting', 3, 3.2),
      },
    },
  },
  {
    title: 'about pieces, devices and tools that are away and back before they are wanted',
    changes: {
      stockChanges: {
        stockchange_tables: {
          of: { kind: 'furnishing', furnishingId: 'furnishing_table', count: 10 },
          why: 'lent-out',
          fromAt: inDays(-5),
          toAt: inDays(0),
        },
        stockchange_sound: {
          of: { kind: 'equipment', equipmentId: 'equipment_sound' },
          why: 'out-of-service',
          fromAt: inDays(-5),
          toAt: inDays(-1),
        },
        stockchange_mops: {
          of: { kind: 'tool', toolId: 'tool_mop', count: 2 },
          why: 'lent-out',
          fromAt: inDays(-5),
          toAt: inDays(0),
        },
      },
      bookings: { booking_supper: booking('Harvest supper', 'main', 'banquet', 0.1, 0.3) },
    },
  },
  {
    title: 'about some of the tools away, as long as one is left or another kind serves',
    changes: {
      tools: {
        tool_wide: {
          name: 'wide mop',
          namePlural: 'wide mops',
          countOwned: 1,
          cleaningMethods: ['dust-mop'],
        },
      },
      stockChanges: {
        stockchange_mops: {
          of: { kind: 'tool', toolId: 'tool_mop', count: 2 },
          why: 'lent-out',
          fromAt: inDays(1),
          toAt: inDays(2),
        },
        stockchange_bucket: {
          of: { kind: 'tool', toolId: 'tool_bucket', count: 1 },
          why: 'out-of-service',
          fromAt: inDays(1),
          toAt: null,
        },
      },
    },
  },
  {
    title: 'about tools at a site that has none entered for cleaning',
    changes: {
      tools: {
        tool_mop: { cleaningMethods: [], furnishingIds: ['furnishing_deck'] },
        tool_broom: null,
        tool_bucket: null,
      },
    },
  },
  {
    title: 'about a closed store that leaves time to turn the room, or that no booking needs then',
    changes: {
      closures: {
        closure_store: {
          sectionIds: [],
          storagePlaceIds: ['storage_north'],
          fromAt: inDays(4.4),
          toAt: inDays(5.5),
          reason: 'rewiring',
        },
      },
      bookings: {
        booking_games: booking('Games', 'main', 'games', 4, 4.3),
        booking_supper: booking('Harvest supper', 'main', 'banquet', 5.2, 5.4),
        booking_circle: booking('Circle', 'side', 'meeting', 4, 5),
        booking_again: booking('Circle again', 'side', 'meeting', 5.1, 5.2),
      },
    },
  },
  {
    title: 'about heating that takes hours by itself',
    changes: {
      equipment: {
        equipment_heating: {
          name: 'heating',
          sectionIds: ['section_main'],
          kind: 'heating-or-cooling',
          control: statesControl(
            ['low', 'warm'],
            [step('low', 'warm', { seconds: 10_800, hands: 0 }), step('warm', 'low', { hands: 0 })],
          ),
        },
      },
      layouts: {
        layout_worship: { equipment: states({ sound: 'music', projector: 'slides', heating: 'warm' }) },
      },
    },
  },
  {
    title: 'about chairs pushed under tables and on a stage, pieces side by side, and what lies on tables',
    changes: {
      layouts: {
        layout_banquet: {
          placements: [
            place('table', 5, 5),
            place('table', 6.5, 5),
            place('chair', 5, 5.85),
            place('chair', 5, 4.15, 180),
            place('cloth', 5, 5),
          ],
        },
        layout_worship: {
          placements: [
            place('deck', 9, 10),
            place('deck', 11, 10),
            place('deck', 13, 10.97, 90),
            place('chair', 9, 10),
            place('chair', 9.45, 10),
            place('chair', 9.9, 10.02, 10),
          ],
        },
      },
      furnishings: {
        furnishing_deck: { widthMetres: 2, depthMetres: 1 },
        furnishing_cloth: { widthMetres: 2, depthMetres: 2 },
      },
    },
  },
  {
    title: 'about a layout of the same name in another room, and an exit in the depth of a wall',
    changes: {
      layouts: { layout_meeting: { name: 'banquet' } },
      exits: { exit_east: { position: { xMetres: 18.6, yMetres: 6 } } },
    },
  },
  {
    title: 'about zones with corners that point inwards and lie in one another',
    changes: {
      rooms: {
        room_main: {
          zones: [
            { name: 'middle', corners: corners([6, 0], [12, 0], [12, 6], [6, 6]) },
            {
              name: 'around',
              corners: corners([0, 0], [6, 0], [6, 6], [12, 6], [12, 0], [18, 0], [18, 12], [0, 12]),
            },
          ],
        },
      },
    },
  },
  {
    title: 'about zones that share the floor out',
    changes: {
      rooms: {
        room_main: {
          zones: [
            { name: 'front', corners: strip(0, 6) },
            { name: 'back', corners: strip(6, 12) },
          ],
        },
      },
    },
  },
]

function place(name: string, xMetres: number, yMetres: number, rotationDegrees = 0) {
  return { furnishingId: `furnishing_${name}`, xMetres, yMetres, rotationDegrees }
}

function corners(...points: readonly (readonly [number, number])[]) {
  return points.map(([xMetres, yMetres]) => ({ xMetres, yMetres }))
}
