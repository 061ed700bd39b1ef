/** The hall that all worked sheets are about: 214 m², one store 25 m away, through one doorway. */

import { Equipment } from '../../../../src/domain/equipment.ts'
import type { Placement } from '../../../../src/domain/layout.ts'
import { Passage } from '../../../../src/domain/passage.ts'
import type { NetworkInput } from '../../../../src/scheduler/network/index.ts'
import {
  aFurnishing,
  aTurn,
  chair,
  furnishings,
  hall,
  northStore,
  videoFeed as plainVideoFeed,
} from '../a-network-input.ts'

const doorway = Passage.parse({
  id: 'passage_store-door',
  siteId: hall.siteId,
  name: 'Store door',
  kind: 'doorway',
})

const store = {
  ...northStore,
  routes: northStore.routes.map((route) => ({ ...route, passageIds: [doorway.id] })),
}

/** 17.9 m long, so three strips of about 6 m. */
const goldenHall: NetworkInput['room'] = {
  ...hall,
  floor: { kind: 'rectangle', widthMetres: 17.9, depthMetres: 12 },
}

export const stageRail = aFurnishing('stage rail', 'stage rails', {
  kind: 'stage-rail',
  massKilograms: 16,
  handsPerPiece: 2,
})

/** Somebody who knows the system tries picture and sound before anybody relies on them. */
export const videoFeed = Equipment.parse({
  ...plainVideoFeed,
  readinessCheck: { what: 'picture and sound', seconds: 300, hands: 1, skill: 'video', needsQuiet: true },
})

/** Rows of 12 chairs across the hall, a metre apart, the first 2 m from the front. */
export const rowsOfChairs = (rows: number): Placement[] =>
  Array.from({ length: rows * 12 }, (_, index) => ({
    furnishingId: chair.id,
    xMetres: 2 + Math.floor(index / 12),
    yMetres: 2 + 0.6 * (index % 12),
    rotationDegrees: 0,
  }))

export function aGoldenTurn(
  from: NetworkInput['toLayout'],
  to: NetworkInput['toLayout'],
  outgoing: { readonly headcount: number; readonly foodServed: boolean },
  overrides: Partial<NetworkInput> = {},
  fixedThings: NetworkInput['room']['fixedThings'] = [],
): NetworkInput {
  return aTurn(from, to, {
    room: { ...goldenHall, fixedThings },
    furnishings: [...furnishings, stageRail],
    storagePlaces: [store],
    passages: [doorway],
    outgoing: { kind: from.kind, floorWet: false, ...outgoing },
    ...overrides,
  })
}
