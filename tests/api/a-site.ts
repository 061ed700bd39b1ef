/** A hall set up through the API, with nothing in it yet: games and banquet in one large room, worship in a smaller. */
import { idOf, type Service } from './a-service.ts'

export interface ASite {
  readonly siteId: string
  readonly path: string
  readonly northId: string
  readonly southId: string
  readonly upperId: string
  readonly hallId: string
  readonly southRoomId: string
  readonly upperRoomId: string
  readonly storageId: string
  readonly chairId: string
  readonly tableId: string
  readonly lightsId: string
  readonly projectorId: string
  readonly gamesId: string
  readonly banquetId: string
  readonly worshipId: string
  readonly personId: string
}

export interface SiteOptions {
  readonly zone?: string
  /** Unnamed hands on duty every day from 07:00 to 23:00; 0: nobody. */
  readonly hands?: number
}

export const everyDay = [1, 2, 3, 4, 5, 6, 7]

export async function aSite(service: Service, options: SiteOptions = {}): Promise<ASite> {
  const zone = options.zone ?? 'America/Chicago'
  const siteId = idOf(await service.post('/v1/sites', { name: 'Alder Row', zone }))
  const path = `/v1/sites/${siteId}`
  const add = async (segment: string, body: object) => idOf(await service.post(`${path}/${segment}`, body))

  const section = (name: string, areaSquareMetres: number) =>
    add('sections', { name, areaSquareMetres, floorKind: 'sealed-wood' })
  const northId = await section('Hall, north', 107)
  const southId = await section('Hall, south', 107)
  const upperId = await section('Upper', 120)

  const hallId = await add('rooms', {
    name: 'Long Hall',
    sectionIds: [northId, southId],
    occupantLimitPosted: 220,
  })
  const southRoomId = await add('rooms', { name: 'South End', sectionIds: [southId] })
  const upperRoomId = await add('rooms', {
    name: 'Upper Room',
    sectionIds: [upperId],
    openingHours: [{ weekdays: everyDay, opensLocal: '07:00', closesLocal: '23:00' }],
  })

  const rooms = [hallId, southRoomId, upperRoomId]
  const routes = rooms.map((roomId) => ({ roomId, distanceMetres: 25 }))
  const storageId = await add('storage-places', { name: 'Yard store', routes })
  const chairId = await add('furnishings', aChair(storageId))
  const tableId = await add('furnishings', {
    ...aChair(storageId),
    name: 'round table',
    namePlural: 'round tables',
    kind: 'round-table',
    countOwned: 15,
    massKilograms: 27,
    handsPerPiece: 2,
    trolley: { capacityPieces: 9, countOwned: 2 },
  })
  const lightsId = await add('equipment', aDimmer([northId, southId]))
  const projectorId = await add('equipment', aProjector([upperId]))

  const gamesId = await add('layouts', {
    roomId: hallId,
    name: 'Games floor',
    kind: 'games',
    furnishings: [{ furnishingId: chairId, count: 20 }],
  })
  const banquetId = await add('layouts', {
    roomId: hallId,
    name: 'Banquet of 15',
    kind: 'banquet',
    seats: 120,
    furnishings: [
      { furnishingId: tableId, count: 15 },
      { furnishingId: chairId, count: 120 },
    ],
    equipment: [{ equipmentId: lightsId, setting: { kind: 'level', levelPercent: 60 } }],
  })
  const worshipId = await add('layouts', {
    roomId: upperRoomId,
    name: 'Rows',
    kind: 'worship',
    seats: 80,
    furnishings: [{ furnishingId: chairId, count: 80 }],
  })
  const personId = await add('people', {
    name: 'Ottoline Reed',
    phone: '555 0100',
    adult: true,
    skills: ['sound'],
  })
  const hands = options.hands ?? 4
  if (hands > 0) await add('shifts', aWeeklyShift(hands))
  return {
    siteId,
    path,
    northId,
    southId,
    upperId,
    hallId,
    southRoomId,
    upperRoomId,
    storageId,
    chairId,
    tableId,
    lightsId,
    projectorId,
    gamesId,
    banquetId,
    worshipId,
    personId,
  }
}

export const aChair = (storagePlaceId: string) => ({
  name: 'stacking chair',
  namePlural: 'stacking chairs',
  kind: 'stacking-chair',
  countOwned: 240,
  massKilograms: 6,
  storagePlaceId,
  method: 'trolley',
  handsPerPiece: 1,
  trolley: { capacityPieces: 25, countOwned: 4 },
})

/** Its lowest stable level is 10 % (common practice, no source). */
export const aDimmer = (sectionIds: string[]) => ({
  name: 'House lights',
  sectionIds,
  control: {
    kind: 'level',
    lowestPercent: 10,
    highestPercent: 100,
    canBeOff: true,
    homeSetting: { kind: 'off' },
    setSeconds: 30,
    hands: 1,
  },
})

export const aProjector = (sectionIds: string[]) => ({
  name: 'Projector',
  sectionIds,
  control: {
    kind: 'states',
    states: ['off', 'slides'],
    homeState: 'off',
    transitions: [
      { from: 'off', to: 'slides', seconds: 120, hands: 0 },
      { from: 'slides', to: 'off', seconds: 180, hands: 0 },
    ],
  },
})

export const aWeeklyShift = (hands: number) => ({
  name: 'Crew',
  crew: { kind: 'hands', hands, adults: true },
  times: {
    kind: 'weekly',
    weekdays: everyDay,
    startsLocal: '07:00',
    endsLocal: '23:00',
    firstDate: '2026-01-01',
  },
})

export interface TheRest {
  readonly exitId: string
  readonly passageId: string
  readonly toolId: string
  readonly closureId: string
  readonly stockChangeId: string
  readonly observationId: string
  readonly rateSetId: string
  /** Of Ottoline Reed, on Sundays. */
  readonly shiftId: string
}

/** One of each kind that a simple hall does without. */
export async function addTheRest(service: Service, site: ASite): Promise<TheRest> {
  const add = async (segment: string, body: object) =>
    idOf(await service.post(`${site.path}/${segment}`, body))
  const exitId = await add('exits', { name: 'East door', sectionId: site.northId, clearWidthMetres: 1.8 })
  // A banquet of a hundred needs a second one.
  await add('exits', { name: 'West door', sectionId: site.northId, clearWidthMetres: 1.8 })
  const passageId = await add('passages', { name: 'Dock door', kind: 'doorway' })
  const toolId = await add('tools', {
    name: 'dust mop',
    namePlural: 'dust mops',
    countOwned: 4,
    cleaningMethods: ['dust-mop'],
  })
  const closureId = await add('closures', {
    sectionIds: [site.upperId],
    fromAt: '2026-12-01T00:00',
    toAt: '2026-12-02T00:00',
    reason: 'New floor',
  })
  const stockChangeId = await add('stock-changes', {
    of: { kind: 'furnishing', furnishingId: site.chairId, count: 10 },
    why: 'lent-out',
    fromAt: '2026-12-01T00:00',
  })
  const observationId = await add('observations', {
    roomId: site.upperRoomId,
    seenAt: '2026-11-23T08:00',
    pieces: [{ furnishingId: site.chairId, count: 12 }],
  })
  const rateSetId = await add('rate-sets', { name: 'Ours', rates: { walkingMetresPerSecond: 1.4 } })
  const shiftId = await add('shifts', {
    ...aWeeklyShift(1),
    name: 'Reed, Sundays',
    crew: { kind: 'person', personId: site.personId },
    times: { ...aWeeklyShift(1).times, weekdays: [7] },
  })
  return { exitId, passageId, toolId, closureId, stockChangeId, observationId, rateSetId, shiftId }
}

/** A banquet on Saturday 28 November 2026, from 17:00 to 20:00. */
export const aDinner = (site: ASite) => ({
  title: 'Harvest supper',
  roomId: site.hallId,
  layoutId: site.banquetId,
  headcount: 100,
  startsAt: '2026-11-28T17:00',
  endsAt: '2026-11-28T20:00',
})

/** Games in the same room the evening before, clear at 21:15. */
export const aGamesNight = (site: ASite) => ({
  title: 'Youth games night',
  roomId: site.hallId,
  layoutId: site.gamesId,
  headcount: 45,
  startsAt: '2026-11-27T18:30',
  endsAt: '2026-11-27T21:00',
})
