import { describe, expect, test } from 'vitest'
import type { FurnishingId } from '../../../src/domain/ids.ts'
import type { Layout, Placement } from '../../../src/domain/layout.ts'
import type { NetworkInput } from '../../../src/scheduler/network/index.ts'
import { reckonedNetwork, taskNetwork } from '../../../src/scheduler/network/index.ts'
import {
  aFurnishing,
  aLayout,
  aTurn,
  chair,
  foldingWall,
  hall,
  inState,
  northStore,
  pieces,
  roundTable,
  stageDeck,
} from './a-network-input.ts'
import { keyed, ofKind, piecesIn } from './a-network-question.ts'

/** 18 m long: three strips of 6 m. */
const longHall: NetworkInput['room'] = {
  ...hall,
  floor: { kind: 'rectangle', widthMetres: 18, depthMetres: 12 },
}

const at = (
  furnishingId: FurnishingId,
  xMetres: number,
  yMetres: number,
  rotationDegrees = 0,
): Placement => ({
  furnishingId,
  xMetres,
  yMetres,
  rotationDegrees,
})
const chairsAt = (...xMetres: number[]) => xMetres.map((x, index) => at(chair.id, x, 1 + index))
const layoutOf = (name: string, placements: readonly Placement[]): Layout =>
  aLayout('meeting', {
    id: `layout_${name}` as Layout['id'],
    furnishings: [chair, roundTable].flatMap((furnishing) => {
      const count = placements.filter((one) => one.furnishingId === furnishing.id).length
      return count > 0 ? [pieces(furnishing, count)] : []
    }),
    placements: [...placements],
  })
const turn = (from: readonly Placement[], to: readonly Placement[], overrides: Partial<NetworkInput> = {}) =>
  taskNetwork(
    aTurn(layoutOf('before', from), layoutOf('after', to), {
      room: longHall,
      placementsFrom: from,
      ...overrides,
    }),
  )
const inZone = (network: ReturnType<typeof turn>, kind: 'park' | 'set' | 'strike', zone: number) =>
  piecesIn(ofKind(network, kind).filter((task) => task.zone === zone && task.furnishingId !== null))

describe('pieces whose places are known before and after', () => {
  test('stay where one is wanted, whatever the layouts are called', () => {
    const network = turn(chairsAt(1, 1, 1), chairsAt(1, 1, 1))
    expect([...ofKind(network, 'park'), ...ofKind(network, 'set')]).toEqual([])
  })

  test('are moved where the place or the rotation differs', () => {
    const network = turn([...chairsAt(1, 1), at(chair.id, 5, 5)], [...chairsAt(1, 2), at(chair.id, 5, 5, 90)])
    expect(piecesIn(ofKind(network, 'park'))).toBe(2)
  })

  test('may be turned where they are round', () => {
    expect(ofKind(turn([at(roundTable.id, 3, 3, 0)], [at(roundTable.id, 3, 3, 45)]), 'park')).toEqual([])
  })

  const deck = stageDeck
  const square = { ...deck, id: 'furnishing_square' as FurnishingId, widthMetres: 1, depthMetres: 1 }
  const long = aFurnishing('long table', 'long tables', { kind: 'long-table' })
  const stock = [chair, roundTable, deck, square, long]
  /** How many of one piece are moved between two places of it. */
  const moved = (
    furnishing: (typeof stock)[number],
    [x, y, turned = 0]: number[],
    [x2, y2, turned2 = 0]: number[],
  ) => {
    const layout = (name: string, placement: Placement) =>
      aLayout('meeting', {
        id: `layout_${name}` as Layout['id'],
        furnishings: [pieces(furnishing, 1)],
        placements: [placement],
      })
    const from = at(furnishing.id, x!, y!, turned)
    const network = taskNetwork(
      aTurn(layout('before', from), layout('after', at(furnishing.id, x2!, y2!, turned2)), {
        room: longHall,
        placementsFrom: [from],
        furnishings: stock,
      }),
    )
    return piecesIn(ofKind(network, 'park'))
  }

  test('stay where they are wanted within 5 cm, wherever in the hall that is', () => {
    // A fraction of a millimetre, over the line of a grid.
    expect(moved(long, [1.0249, 1], [1.0251, 1])).toBe(0)
    expect(moved(long, [3, 3], [3.05, 3])).toBe(0)
    expect(moved(long, [3, 3], [3.03, 2.96])).toBe(0)
    expect(moved(long, [0.01, 0.01], [-0.01, -0.01])).toBe(0)
    expect(moved(long, [3, 3], [3.06, 3])).toBe(1)
    expect(moved(long, [3, 3], [3.04, 3.04])).toBe(1)
  })

  test('stay where they are turned by no more than 2 degrees', () => {
    expect(moved(chair, [3, 3, 0.4], [3, 3, 0.6])).toBe(0)
    expect(moved(chair, [3, 3, 359], [3, 3, 1])).toBe(0)
    expect(moved(chair, [3, 3, 0], [3, 3, 3])).toBe(1)
  })

  test('may be turned as far as nobody sees it: a table, a deck or a panel half round, a square one a quarter', () => {
    expect(moved(long, [3, 3, 90], [3, 3, 270])).toBe(0)
    expect(moved(deck, [3, 3, 0], [3, 3, 179])).toBe(0)
    expect(moved(long, [3, 3, 0], [3, 3, 90])).toBe(1)
    expect(moved(square, [3, 3, 0], [3, 3, 270])).toBe(0)
    expect(moved(chair, [3, 3, 0], [3, 3, 180])).toBe(1)
  })

  test('hold one place each, the nearest: of two chairs at one place one is moved', () => {
    const network = turn(
      [at(chair.id, 3, 3), at(chair.id, 3.02, 3)],
      [at(chair.id, 3.02, 3), at(chair.id, 9, 9)],
    )
    expect(piecesIn(ofKind(network, 'park'))).toBe(1)
  })

  test('are interchangeable: any chair may take any place of a chair', () => {
    const network = turn(chairsAt(1, 2, 3), [...chairsAt(1, 2, 3)].reverse())
    expect(ofKind(network, 'park')).toEqual([])
  })

  test('are taken from the nearest zone, and what is left over there goes to the store', () => {
    // Three to move from zone 1, one from zone 2; two wanted in zone 3: the nearest is zone 2, then one of zone 1.
    const network = turn(chairsAt(1, 1, 1, 8), chairsAt(16, 17))
    expect([1, 2, 3].map((zone) => inZone(network, 'park', zone))).toEqual([1, 1, 0])
    expect([1, 2, 3].map((zone) => inZone(network, 'strike', zone))).toEqual([2, 0, 0])
    expect([1, 2, 3].map((zone) => inZone(network, 'set', zone))).toEqual([0, 0, 2])
  })

  test('come from the store to the zone where they are wanted', () => {
    const network = turn(chairsAt(1), [...chairsAt(1), at(chair.id, 9, 9), at(chair.id, 10, 9)])
    expect([1, 2, 3].map((zone) => inZone(network, 'set', zone))).toEqual([0, 2, 0])
  })

  const sized = { ...chair, widthMetres: 0.45, depthMetres: 0.5 }
  /** The one task of each kind and name of lot, and the arrows. */
  const shifted = (from: readonly Placement[], to: readonly Placement[], overrides = {}) => {
    const input = aTurn(layoutOf('before', from), layoutOf('after', to), {
      room: longHall,
      placementsFrom: from,
      furnishings: [sized, roundTable],
      ...overrides,
    })
    const reckoned = reckonedNetwork(input)
    const ofPieces = reckoned.network.tasks.filter(({ furnishingId }) => furnishingId !== null)
    return { ...reckoned, keys: ofPieces.map(({ key }) => key), ofPieces }
  }

  test('go straight where they are only turned or go a few steps, in one task', () => {
    const { keys, ofPieces, moves } = shifted(
      [at(chair.id, 3, 3), at(chair.id, 8, 3)],
      [at(chair.id, 3, 3, 90), at(chair.id, 8, 4.4)],
    )
    expect(keys).toEqual([`set/${chair.id}/zone-1/straight-1`, `set/${chair.id}/zone-2/straight-1`])
    expect(ofPieces[0]?.text).toBe(
      'Move 1 stacking chair in zone 1 straight to where it is wanted, a few steps away or only turned, by the plan of meeting. For 1 person.',
    )
    expect(ofPieces.map(({ fromPlace, toPlace }) => fromPlace === toPlace)).toEqual([true, true])
    expect(moves.map(({ metres, parkedAt }) => [metres.toFixed(2), parkedAt])).toEqual([
      ['0.00', null],
      ['1.40', null],
    ])
  })

  test('go straight in a block that is shifted by less than a place: the first ones first', () => {
    const block = (shiftMetres: number) =>
      Array.from({ length: 40 }, (_, index) =>
        at(chair.id, 1 + 0.6 * (index % 8) + shiftMetres, 1 + Math.floor(index / 8)),
      )
    const { keys, ofPieces } = shifted(block(0), block(0.3))
    expect(keys.every((key) => key.includes('/straight-'))).toBe(true)
    expect(piecesIn(ofPieces)).toBe(40)
  })

  test('are put aside where another kind would have to go first, though it goes straight itself', () => {
    const sizedTable = { ...roundTable, widthMetres: 1, depthMetres: 1 }
    const { keys } = shifted(
      [at(roundTable.id, 4, 8), at(chair.id, 5.2, 8)],
      [at(roundTable.id, 5.2, 8), at(chair.id, 7, 8)],
      { furnishings: [sized, sizedTable] },
    )
    expect(keys.filter((key) => key.startsWith('park/'))).toHaveLength(2)
  })

  test('are put aside where each waits for the other to go', () => {
    const sizedTable = { ...roundTable, widthMetres: 0.5, depthMetres: 0.5 }
    const swapped = shifted(
      [at(chair.id, 3, 3), at(roundTable.id, 4, 3)],
      [at(chair.id, 4, 3), at(roundTable.id, 3, 3)],
      { furnishings: [sized, sizedTable] },
    )
    expect(swapped.keys.filter((key) => key.startsWith('park/'))).toHaveLength(2)
  })

  test('are put aside where they go farther than the short carry, or another moves from there or to there', () => {
    const aside = [`park/${chair.id}/zone-1/1`, `set/${chair.id}/zone-2/from-zone-1-1`]
    expect(shifted([at(chair.id, 3, 3)], [at(chair.id, 9.1, 3)]).keys).toEqual(aside)
    expect(shifted([at(chair.id, 3, 3)], [at(chair.id, 8.9, 3)]).keys).toEqual([
      `set/${chair.id}/zone-2/straight-1`,
    ])
    // A table leaves the place where the chair is wanted, or comes to where it stands.
    const leaves = shifted([at(chair.id, 3, 3), at(roundTable.id, 4, 3)], [at(chair.id, 4, 3)], {
      furnishings: [sized, { ...roundTable, widthMetres: 1.8, depthMetres: 1.8 }],
    })
    expect(leaves.keys.filter((key) => key.includes(chair.id))).toEqual([
      `park/${chair.id}/zone-1/1`,
      `set/${chair.id}/zone-1/from-zone-1-1`,
    ])
    const comes = shifted([at(chair.id, 3, 3)], [at(chair.id, 4, 3), at(roundTable.id, 2.5, 3)], {
      furnishings: [sized, { ...roundTable, widthMetres: 1.8, depthMetres: 1.8 }],
    })
    expect(comes.keys).toContain(`park/${chair.id}/zone-1/1`)
    const mustBeClear = { equipmentFrom: [inState(foldingWall, 'closed')] }
    expect(shifted([at(chair.id, 3, 3)], [at(chair.id, 3, 4)], mustBeClear).keys).toContain(
      `park/${chair.id}/zone-1/1`,
    )
  })

  test('all move when the floor has to be clear in between', () => {
    const network = turn(chairsAt(1, 8), chairsAt(1, 8), { equipmentFrom: [inState(foldingWall, 'closed')] })
    expect(piecesIn(ofKind(network, 'park'))).toBe(2)
    expect([1, 2, 3].map((zone) => inZone(network, 'set', zone))).toEqual([1, 1, 0])
  })
})

describe('which piece goes where', () => {
  const from = [...chairsAt(1, 1, 1), at(chair.id, 8, 10)]
  const to = [at(chair.id, 16, 1), at(chair.id, 16, 2), at(chair.id, 8, 10)]
  const input = aTurn(layoutOf('before', from), layoutOf('after', to), {
    room: longHall,
    placementsFrom: from,
  })
  const { network, reckonings, moves } = reckonedNetwork(input)

  test('is told on the list: what is put aside is needed again elsewhere, and how far that is', () => {
    expect(ofKind(network, 'park').map(({ text }) => text)).toEqual([
      'Stack 2 stacking chairs in zone 1 and put them aside, clear of every exit (the side of the room); they are needed again in zone 3. For 1 or 2 people.',
    ])
    const set = keyed(network, `set/${chair.id}/zone-3/from-zone-1-1`)
    expect(set.text).toBe(
      'Fetch 2 stacking chairs from zone 1 (about 15 m, 2 at a time) that were put aside (the side of the room) and put them in place in zone 3. For 1 or 2 people.',
    )
  })

  test('counts the way beyond the short carry, there and back', () => {
    const set = keyed(network, `set/${chair.id}/zone-3/from-zone-1-1`)
    // 2 × 9 s, and one carry of 2: 9 m at 1.41 m/s and 9 m at 1.6 m/s, 12.0 s; × 1.725.
    expect(set.workPersonSeconds).toBe(Math.ceil((18 + 9 / 1.41 + 9 / 1.6) * 1.725))
    const terms = reckonings.get(set.key)!.terms
    expect(terms.map(({ what }) => what)).toEqual(['handling', 'way with the load', 'way back'])
    expect(terms.reduce((sum, { personSeconds }) => sum + personSeconds, 0)).toBeCloseTo(30.008, 2)
  })

  test('goes by trolley where many go far', () => {
    const many = Array.from({ length: 50 }, (_, index) => at(chair.id, 1, 0.2 * index + 0.5))
    const there = many.map((place) => ({ ...place, xMetres: 17 }))
    const far = turn(many, there)
    const sets = ofKind(far, 'set').filter(({ furnishingId }) => furnishingId === chair.id)
    expect(piecesIn(sets)).toBe(50)
    expect(sets.every(({ uses }) => uses.some(({ resource }) => resource === `trolley:${chair.id}`))).toBe(
      true,
    )
    expect(sets[0]!.text).toMatch(/from zone 1 \(about 16 m with a trolley\)/)
  })

  test('is listed piece by piece: from place to place, and to the store', () => {
    const place = (xMetres: number, yMetres: number) => ({
      kind: 'place',
      xMetres,
      yMetres,
      rotationDegrees: 0,
    })
    const parkedAt = 'the side of the room'
    expect(moves).toEqual([
      { furnishingId: chair.id, from: place(1, 1), to: place(16, 1), parkedAt, metres: 15 },
      { furnishingId: chair.id, from: place(1, 2), to: place(16, 2), parkedAt, metres: 15 },
      {
        furnishingId: chair.id,
        from: place(1, 3),
        to: { kind: 'store', storagePlaceId: northStore.id },
        parkedAt: null,
        metres: 25,
      },
    ])
  })

  test('sends away what stands nearest to the door of the store', () => {
    const routes = northStore.routes.map((route) => ({ ...route, doorAt: { xMetres: 0, yMetres: 1 } }))
    const { moves: others } = reckonedNetwork({ ...input, storagePlaces: [{ ...northStore, routes }] })
    expect(others.filter(({ to }) => to.kind === 'store').map(({ from }) => from)).toEqual([
      { kind: 'place', xMetres: 1, yMetres: 1, rotationDegrees: 0 },
    ])
  })

  test('is not known of pieces that are only counted', () => {
    const counted = aLayout('games', { furnishings: [pieces(chair, 3)] })
    expect(reckonedNetwork({ ...input, toLayout: counted }).moves).toEqual([])
  })
})

describe('pieces whose places are known on one side only', () => {
  test('are matched by their numbers, and worked in the zones where they stand', () => {
    const from = chairsAt(1, 1, 8, 17)
    const network = turn(from, [], { toLayout: aLayout('games', { furnishings: [pieces(chair, 3)] }) })
    expect([1, 2, 3].map((zone) => inZone(network, 'park', zone) + inZone(network, 'strike', zone))).toEqual([
      2, 1, 1,
    ])
    expect([1, 2, 3].map((zone) => inZone(network, 'set', zone))).toEqual([1, 1, 1])
  })
})

describe('a room with zones of its own', () => {
  const corner = (xMetres: number, yMetres: number) => ({ xMetres, yMetres })
  const zones = [
    { name: 'Stage side', corners: [corner(0, 0), corner(12, 0), corner(12, 12), corner(0, 12)] },
    { name: 'Door side', corners: [corner(12, 0), corner(18, 0), corner(18, 12), corner(12, 12)] },
  ]
  const network = turn(chairsAt(1, 1, 17, 30), [], { room: { ...hall, zones }, areaSquareMetres: 216 })

  test('is worked in those, called by name', () => {
    expect(ofKind(network, 'strike')[0]!).toMatchObject({
      zone: 1,
      fromPlace: 'Garden Hall, zone 1 (Stage side)',
    })
    expect(ofKind(network, 'walkthrough')[0]!.text).toMatch(
      /Agree on the 2 zones and where each of them ends/,
    )
  })

  test('has its floor shared as the polygons say, all of it', () => {
    const work = (zone: number) =>
      ofKind(network, 'clean')
        .filter((task) => task.zone === zone)
        .reduce((sum, task) => sum + task.workPersonSeconds, 0)
    expect(work(1) / work(2)).toBeCloseTo(2, 1)
  })

  test('counts a piece outside them to the nearest', () => {
    expect([1, 2].map((zone) => inZone(network, 'strike', zone))).toEqual([2, 2])
  })

  test('that has too many for the list has neighbours put together', () => {
    const many = Array.from({ length: 12 }, (_, i) => ({
      name: `Strip ${i + 1}`,
      corners: [corner(i, 0), corner(i + 1, 0), corner(i + 1, 12), corner(i, 12)],
    }))
    const props = Array.from({ length: 15 }, (_, i) => aFurnishing(`prop ${i}`, `props ${i}`))
    const coarse = taskNetwork(
      aTurn(aLayout('other'), aLayout('games', { furnishings: props.map((prop) => pieces(prop, 60)) }), {
        room: { ...hall, zones: many },
        furnishings: props,
        areaSquareMetres: 3000,
      }),
    )
    expect(coarse.tasks.length).toBeLessThanOrEqual(120)
    expect(piecesIn(ofKind(coarse, 'set'))).toBe(900)
    expect(coarse.tasks.some((task) => task.toPlace?.includes('Strip 1 to Strip'))).toBe(true)
  })
})
