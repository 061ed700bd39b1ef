/** What the demo site owns that can be moved, where it lives, and what the floors are cleaned with. */

const route = (roomId: string, distanceMetres: number, passageIds: readonly string[] = []) => ({
  roomId,
  distanceMetres,
  passageIds,
})

export const storagePlaces = [
  {
    id: 'storage_north',
    name: 'North store',
    areaSquareMetres: 48,
    limits: [
      { furnishingId: 'furnishing_chair', countMost: 640 },
      // Six fewer than the site owns: the other thing the check of the demo finds.
      { furnishingId: 'furnishing_round-table', countMost: 18 },
    ],
    routes: [
      route('room_long', 25, ['passage_store-doors']),
      route('room_long-south', 32, ['passage_store-doors']),
      route('room_garden', 45, ['passage_store-doors']),
      route('room_upper', 70, ['passage_store-doors', 'passage_goods-lift']),
    ],
  },
  {
    id: 'storage_stage-bay',
    name: 'Stage bay',
    areaSquareMetres: 14,
    depthOrder: ['furnishing_post-pair', 'furnishing_deck'],
    routes: [
      route('room_long', 12),
      route('room_long-south', 20),
      route('room_garden', 50),
      route('room_upper', 75, ['passage_goods-lift']),
    ],
  },
  {
    id: 'storage_linen',
    name: 'Linen cupboard',
    areaSquareMetres: 4,
    routes: [
      route('room_long', 18),
      route('room_long-south', 24),
      route('room_garden', 15),
      route('room_upper', 60, ['passage_goods-lift']),
    ],
  },
]

/** Times per piece are left to the rates for the kind. */
const byRates = { setPersonSeconds: null, strikePersonSeconds: null }

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
    ...byRates,
    trolley: { capacityPieces: 25, countOwned: 4 },
    widthMetres: 0.45,
    depthMetres: 0.55,
    seatsPerPiece: 1,
    lift: {
      horizontalCentimetres: 38,
      originHeightCentimetres: 90,
      destinationHeightCentimetres: 75,
      asymmetryDegrees: 45,
      coupling: 'fair',
      liftsPerMinute: 3,
    },
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
    ...byRates,
    trolley: { capacityPieces: 9, countOwned: 2 },
    widthMetres: 1.52,
    depthMetres: 1.52,
    seatsPerPiece: 8,
    lift: {
      horizontalCentimetres: 30,
      originHeightCentimetres: 40,
      destinationHeightCentimetres: 75,
      coupling: 'fair',
      liftsPerMinute: 0.5,
    },
  },
  {
    id: 'furnishing_cloth',
    name: 'table cloth',
    namePlural: 'table cloths',
    kind: 'table-cloth',
    countOwned: 40,
    massKilograms: 0.6,
    storagePlaceId: 'storage_linen',
    method: 'carry',
    handsPerPiece: 1,
    ...byRates,
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
    ...byRates,
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
    ...byRates,
    trolley: { capacityPieces: 4, countOwned: 1 },
    widthMetres: 2.44,
    depthMetres: 1.22,
    lift: {
      horizontalCentimetres: 30,
      originHeightCentimetres: 60,
      destinationHeightCentimetres: 40,
      coupling: 'good',
      liftsPerMinute: 0.2,
    },
  },
]

export const tools = [
  {
    id: 'tool_dust-mop',
    name: 'dust mop',
    namePlural: 'dust mops',
    countOwned: 3,
    cleaningMethods: ['dust-mop'],
  },
  {
    id: 'tool_broom',
    name: 'push broom',
    namePlural: 'push brooms',
    countOwned: 4,
    cleaningMethods: ['sweep'],
  },
  {
    id: 'tool_mop-bucket',
    name: 'mop and bucket',
    namePlural: 'mops and buckets',
    countOwned: 3,
    cleaningMethods: ['spot-mop', 'wet-mop'],
  },
  {
    id: 'tool_vacuum',
    name: 'vacuum cleaner',
    namePlural: 'vacuum cleaners',
    countOwned: 2,
    cleaningMethods: ['vacuum'],
  },
]
