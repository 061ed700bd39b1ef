/**
 * The demo site, as plain data; `load-demo.ts` parses it like anything that comes from outside. Everything is
 * invented: the place, the people, the times. Ids are written out, so that the examples in the README can name them.
 */

export const site = { id: 'site_harrow-lane', name: 'Harrow Lane Commons', zone: 'America/Chicago' }

export const sections = [
  {
    id: 'section_long-north',
    name: 'Long Room, north half',
    areaSquareMetres: 107,
    floorKind: 'sealed-wood',
  },
  {
    id: 'section_long-south',
    name: 'Long Room, south half',
    areaSquareMetres: 107,
    floorKind: 'sealed-wood',
  },
  { id: 'section_garden', name: 'Garden Room', areaSquareMetres: 84, floorKind: 'vinyl' },
  { id: 'section_upper', name: 'Upper Hall', areaSquareMetres: 320, floorKind: 'carpet' },
]

const everyDay = [1, 2, 3, 4, 5, 6, 7]
const openingHours = [{ weekdays: everyDay, opensLocal: '07:00', closesLocal: '23:30' }]

export const rooms = [
  {
    id: 'room_long',
    name: 'Long Room',
    sectionIds: ['section_long-north', 'section_long-south'],
    occupantLimitPosted: 220,
    homeLayoutId: 'layout_long-games',
    openingHours,
  },
  {
    id: 'room_long-south',
    name: 'Long Room South',
    sectionIds: ['section_long-south'],
    occupantLimitPosted: 100,
    homeLayoutId: null,
    openingHours,
  },
  {
    id: 'room_garden',
    name: 'Garden Room',
    sectionIds: ['section_garden'],
    occupantLimitPosted: 70,
    homeLayoutId: 'layout_garden-meeting',
    openingHours,
  },
  {
    id: 'room_upper',
    name: 'Upper Hall',
    sectionIds: ['section_upper'],
    occupantLimitPosted: 380,
    homeLayoutId: 'layout_upper-worship',
    openingHours,
  },
]

export const storagePlaces = [
  {
    id: 'storage_north',
    name: 'North store',
    routes: [
      { roomId: 'room_long', distanceMetres: 25 },
      { roomId: 'room_long-south', distanceMetres: 32 },
      { roomId: 'room_garden', distanceMetres: 45 },
      { roomId: 'room_upper', distanceMetres: 70 },
    ],
  },
  {
    id: 'storage_stage-bay',
    name: 'Stage bay',
    routes: [
      { roomId: 'room_long', distanceMetres: 12 },
      { roomId: 'room_long-south', distanceMetres: 20 },
      { roomId: 'room_garden', distanceMetres: 50 },
      { roomId: 'room_upper', distanceMetres: 75 },
    ],
  },
]

/** Times per piece are left to the defaults for the kind. */
const defaultTimes = { setPersonSeconds: null, strikePersonSeconds: null }

export const furnishings = [
  {
    id: 'furnishing_chair',
    name: 'stacking chair',
    namePlural: 'stacking chairs',
    kind: 'stacking-chair',
    countOwned: 620,
    massKilograms: 6,
    storagePlaceId: 'storage_north',
    method: 'trolley',
    handsPerPiece: 1,
    ...defaultTimes,
    trolley: { capacityPieces: 25, countOwned: 4 },
  },
  {
    id: 'furnishing_round-table',
    name: 'round table',
    namePlural: 'round tables',
    kind: 'round-table',
    countOwned: 24,
    massKilograms: 27,
    storagePlaceId: 'storage_north',
    method: 'trolley',
    handsPerPiece: 2,
    ...defaultTimes,
    trolley: { capacityPieces: 9, countOwned: 2 },
  },
  {
    id: 'furnishing_cloth',
    name: 'table cloth',
    namePlural: 'table cloths',
    kind: 'table-cloth',
    countOwned: 40,
    massKilograms: 0.6,
    storagePlaceId: 'storage_north',
    method: 'carry',
    handsPerPiece: 1,
    ...defaultTimes,
    trolley: null,
  },
  {
    id: 'furnishing_post-pair',
    name: 'post pair',
    namePlural: 'post pairs',
    kind: 'post-pair',
    countOwned: 2,
    massKilograms: 36,
    storagePlaceId: 'storage_stage-bay',
    method: 'roll',
    handsPerPiece: 2,
    ...defaultTimes,
    trolley: null,
  },
  {
    id: 'furnishing_deck',
    name: 'stage deck',
    namePlural: 'stage decks',
    kind: 'stage-deck',
    countOwned: 8,
    massKilograms: 55,
    storagePlaceId: 'storage_stage-bay',
    method: 'trolley',
    handsPerPiece: 2,
    ...defaultTimes,
    trolley: { capacityPieces: 4, countOwned: 1 },
  },
]

export const equipment = [
  {
    id: 'equipment_long-projector',
    name: 'Long Room projector',
    sectionIds: ['section_long-north', 'section_long-south'],
    control: {
      kind: 'states',
      states: ['off', 'game-input', 'slides', 'relay'],
      homeState: 'off',
      transitions: [
        // A lamp projector: common practice, no source.
        { from: 'off', to: 'slides', seconds: 120, hands: 0, skill: null, needsFloorClear: false },
        { from: 'slides', to: 'off', seconds: 180, hands: 0, skill: null, needsFloorClear: false },
        { from: 'slides', to: 'relay', seconds: 120, hands: 1, skill: 'sound', needsFloorClear: false },
        { from: 'relay', to: 'slides', seconds: 60, hands: 1, skill: 'sound', needsFloorClear: false },
        { from: 'slides', to: 'game-input', seconds: 60, hands: 1, skill: null, needsFloorClear: false },
        { from: 'game-input', to: 'slides', seconds: 60, hands: 1, skill: null, needsFloorClear: false },
      ],
    },
  },
  {
    id: 'equipment_long-screen',
    name: 'Long Room screen',
    sectionIds: ['section_long-north', 'section_long-south'],
    control: {
      kind: 'states',
      states: ['up', 'down'],
      homeState: 'up',
      transitions: [
        { from: 'up', to: 'down', seconds: 60, hands: 1, skill: null, needsFloorClear: true },
        { from: 'down', to: 'up', seconds: 60, hands: 1, skill: null, needsFloorClear: true },
      ],
    },
  },
  {
    id: 'equipment_long-sound',
    name: 'Long Room sound desk',
    sectionIds: ['section_long-north', 'section_long-south'],
    control: {
      kind: 'states',
      states: ['off', 'speech', 'music', 'relay'],
      homeState: 'off',
      transitions: ['speech', 'music', 'relay'].flatMap((scene) => [
        { from: 'off', to: scene, seconds: 300, hands: 1, skill: 'sound', needsFloorClear: false },
        { from: scene, to: 'off', seconds: 60, hands: 1, skill: null, needsFloorClear: false },
      ]),
    },
  },
  {
    id: 'equipment_long-lights',
    name: 'Long Room house lights',
    sectionIds: ['section_long-north', 'section_long-south'],
    control: {
      kind: 'level',
      lowestPercent: 10,
      highestPercent: 100,
      canBeOff: true,
      homeSetting: { kind: 'level', levelPercent: 100 },
      setSeconds: 60,
      hands: 1,
      skill: null,
    },
  },
]

const pieces = (count: Record<string, number>) =>
  Object.entries(count).map(([name, pieceCount]) => ({
    furnishingId: `furnishing_${name}`,
    count: pieceCount,
  }))
const state = (equipmentId: string, name: string) => ({
  equipmentId,
  setting: { kind: 'state', state: name },
})
const level = (equipmentId: string, levelPercent: number) => ({
  equipmentId,
  setting: { kind: 'level', levelPercent },
})

export const layouts = [
  {
    id: 'layout_long-games',
    roomId: 'room_long',
    name: 'games floor',
    kind: 'games',
    seats: null,
    furnishings: pieces({ 'post-pair': 2, chair: 20 }),
    equipment: [],
  },
  {
    id: 'layout_long-banquet',
    roomId: 'room_long',
    name: 'banquet for 120',
    kind: 'banquet',
    seats: 120,
    furnishings: pieces({ 'round-table': 15, chair: 120, cloth: 15 }),
    equipment: [state('equipment_long-sound', 'speech'), level('equipment_long-lights', 60)],
  },
  {
    id: 'layout_long-worship',
    roomId: 'room_long',
    name: 'worship in rows',
    kind: 'worship',
    seats: 150,
    furnishings: pieces({ chair: 150, deck: 4 }),
    equipment: [
      state('equipment_long-sound', 'music'),
      state('equipment_long-projector', 'slides'),
      state('equipment_long-screen', 'down'),
    ],
  },
  {
    id: 'layout_long-overflow',
    roomId: 'room_long',
    name: 'overflow with relay',
    kind: 'overflow',
    seats: 180,
    furnishings: pieces({ chair: 180 }),
    equipment: [
      state('equipment_long-sound', 'relay'),
      state('equipment_long-projector', 'relay'),
      state('equipment_long-screen', 'down'),
      level('equipment_long-lights', 40),
    ],
  },
  {
    id: 'layout_long-south-meeting',
    roomId: 'room_long-south',
    name: 'meeting in a circle',
    kind: 'meeting',
    seats: 40,
    furnishings: pieces({ chair: 40 }),
    equipment: [],
  },
  {
    id: 'layout_garden-meeting',
    roomId: 'room_garden',
    name: 'garden meeting',
    kind: 'meeting',
    seats: 30,
    furnishings: pieces({ chair: 30 }),
    equipment: [],
  },
  {
    id: 'layout_garden-banquet',
    roomId: 'room_garden',
    name: 'garden supper for 48',
    kind: 'banquet',
    seats: 48,
    furnishings: pieces({ 'round-table': 6, chair: 48, cloth: 6 }),
    equipment: [],
  },
  {
    id: 'layout_upper-worship',
    roomId: 'room_upper',
    name: 'upper hall in rows',
    kind: 'worship',
    seats: 300,
    furnishings: pieces({ chair: 300 }),
    equipment: [],
  },
]

export const people = [
  { id: 'person_rae', adult: true, skills: ['sound'] },
  { id: 'person_ivo', adult: true, skills: [] },
]

export const personDetails = [
  { personId: 'person_rae', name: 'Rae Quillfeather', email: 'rae@harrow-lane.example', phone: null },
  { personId: 'person_ivo', name: 'Ivo Tanglewick', email: null, phone: null },
]

const weekly = (weekdays: readonly number[], startsLocal: string, endsLocal: string) => ({
  kind: 'weekly',
  weekdays,
  startsLocal,
  endsLocal,
  firstDate: '2020-01-06',
  lastDate: null,
})
const hands = (count: number) => ({ kind: 'hands', hands: count, skills: [], adults: true })

export const shifts = [
  {
    id: 'shift_rae',
    name: 'Rae',
    crew: { kind: 'person', personId: 'person_rae' },
    times: weekly([2, 3, 4, 5, 6], '08:00', '23:00'),
  },
  {
    id: 'shift_rae-sunday',
    name: 'Rae, Sunday',
    crew: { kind: 'person', personId: 'person_rae' },
    times: weekly([7], '07:00', '16:00'),
  },
  {
    id: 'shift_ivo',
    name: 'Ivo',
    crew: { kind: 'person', personId: 'person_ivo' },
    times: weekly([1, 2, 3, 4, 5], '08:00', '18:00'),
  },
  { id: 'shift_friday', name: 'Friday crew', crew: hands(3), times: weekly([5], '20:30', '23:30') },
  { id: 'shift_saturday', name: 'Saturday crew', crew: hands(5), times: weekly([6], '10:00', '23:00') },
  { id: 'shift_sunday', name: 'Sunday crew', crew: hands(4), times: weekly([7], '07:00', '15:00') },
]

/** Days count from the Friday the demo is built around: 0 is that Friday, 1 the Saturday after it. */
export const closures = [
  {
    id: 'closure_garden-floor',
    sectionIds: ['section_garden'],
    from: { day: 5, local: '07:00' },
    to: { day: 61, local: '07:00' },
    reason: 'floor repair, eight weeks',
  },
]

/** In the order they are asked for; what does not fit is refused, and said. */
export const bookings = [
  {
    title: 'Games night',
    room: 'long',
    layout: 'long-games',
    headcount: 60,
    day: 0,
    starts: '18:30',
    ends: '21:00',
    doors: '18:20',
    clear: '21:15',
  },
  {
    title: 'Community dinner',
    room: 'long',
    layout: 'long-banquet',
    headcount: 118,
    day: 1,
    starts: '17:00',
    ends: '19:30',
    doors: '16:30',
    clear: '20:00',
  },
  {
    title: 'Barn dance',
    room: 'long',
    layout: 'long-games',
    headcount: 90,
    day: 1,
    starts: '21:20',
    ends: '22:30',
    doors: '21:10',
    clear: '22:45',
  },
  {
    title: 'Early service',
    room: 'upper',
    layout: 'upper-worship',
    headcount: 280,
    day: 2,
    starts: '08:30',
    ends: '09:30',
    doors: '08:00',
    clear: '09:50',
  },
  {
    title: 'Main service',
    room: 'upper',
    layout: 'upper-worship',
    headcount: 300,
    day: 2,
    starts: '11:00',
    ends: '12:15',
    doors: '10:40',
    clear: '12:35',
  },
  {
    title: 'Main service, overflow',
    room: 'long',
    layout: 'long-overflow',
    headcount: 140,
    day: 2,
    starts: '11:00',
    ends: '12:15',
    doors: '10:30',
    clear: '12:35',
  },
  {
    title: 'Family lunch',
    room: 'long',
    layout: 'long-banquet',
    headcount: 80,
    day: 2,
    starts: '13:15',
    ends: '15:00',
    doors: '13:00',
    clear: '15:30',
  },
  {
    title: 'Reading circle',
    room: 'garden',
    layout: 'garden-meeting',
    headcount: 18,
    day: 3,
    starts: '10:00',
    ends: '11:30',
    doors: '09:50',
    clear: '11:40',
  },
  {
    title: 'Memorial dinner',
    room: 'long',
    layout: 'long-banquet',
    headcount: 85,
    day: 4,
    starts: '13:00',
    ends: '15:30',
    doors: '12:30',
    clear: '16:15',
  },
  {
    title: 'Neighbours’ meeting',
    room: 'long-south',
    layout: 'long-south-meeting',
    headcount: 35,
    day: 5,
    starts: '18:30',
    ends: '20:00',
    doors: '18:20',
    clear: '20:10',
  },
]
