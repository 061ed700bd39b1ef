import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { FixedThing } from '../../../src/domain/fixed-thing.ts'
import type { Floor, FloorPoint } from '../../../src/domain/floor.ts'
import { floorPaths, type LeastMoves, leastMoves } from '../../../src/scheduler/placement/index.ts'

const at = (xMetres: number, yMetres: number): FloorPoint => ({ xMetres, yMetres })
const hall: Floor = { kind: 'rectangle', widthMetres: 20, depthMetres: 12 }
const stage = FixedThing.parse({
  name: 'Stage',
  outline: { kind: 'rectangle', xMetres: 8, yMetres: 4, widthMetres: 4, depthMetres: 8 },
})
const open = floorPaths(hall, [])

const metresOnFloor = ({ onFloor }: LeastMoves): number =>
  onFloor.reduce((sum, { metres }) => sum + metres, 0)

describe('pieces that are moved', () => {
  test('go the least way together, though the nearest place is not taken first', () => {
    // (5, 0) is 1 m from (6, 0); but then the other goes 5 m to (3, 0): 6 instead of 2 + 2.
    const moves = leastMoves([at(5, 0), at(8, 0)], [at(6, 0), at(3, 0)], open, null)
    expect(moves.onFloor.map(({ from, to, metres }) => [from, to, metres])).toEqual([
      [0, 1, 2],
      [1, 0, 2],
    ])
  })

  test('stay on their side of a stage', () => {
    // 1 m each; crosswise each would have to go around.
    const moves = leastMoves([at(6, 8), at(14, 8)], [at(7, 8), at(13, 8)], floorPaths(hall, [stage]), null)
    expect(moves.onFloor.map(({ from, to }) => [from, to])).toEqual([
      [0, 0],
      [1, 1],
    ])
  })

  test('stay on their side of a wall, and where they cannot are counted around by outside', () => {
    const wall = FixedThing.parse({
      name: 'Bar',
      outline: { kind: 'rectangle', xMetres: 10, yMetres: 0, widthMetres: 0.5, depthMetres: 12 },
    })
    const paths = floorPaths(hall, [wall])
    const moves = leastMoves([at(9, 6), at(19, 6)], [at(11, 6), at(1, 6)], paths, null)
    // Crosswise it would be 2 + 18 through the wall; on their sides it is 8 + 8.
    expect(moves.onFloor.map(({ from, to, metres }) => [from, to, metres])).toEqual([
      [0, 1, 8],
      [1, 0, 8],
    ])
    const through = leastMoves([at(9, 6)], [at(11, 6)], paths, null).onFloor
    expect(through.map(({ metres }) => metres)).toEqual([2 + 2 * 2])
  })

  test('are counted around the stage, not through it', () => {
    // Straight (13, 10) is 6 m away, around the stage it is 16; (7, 1) is 9.
    const paths = floorPaths(hall, [stage])
    const moves = leastMoves([at(7, 10)], [at(13, 10), at(7, 1)], paths, null)
    expect(moves.onFloor).toEqual([{ from: 0, to: 1, metres: 9 }])
    expect(moves.fromStore).toEqual([0])
  })

  test('leave those for the store that stand nearest to its door', () => {
    const moves = leastMoves([at(1, 1), at(10, 1), at(18, 1)], [at(9, 1)], open, at(20, 1))
    // Keeping the first costs 8 m and takes 10 + 2 to the door; the second 1 and 19 + 2; the third 9 and 19 + 10.
    expect(moves.onFloor).toEqual([{ from: 0, to: 0, metres: 8 }])
    expect(moves.toStore).toEqual([1, 2])
  })

  test('are the nearest ones where nobody knows where the door is', () => {
    const moves = leastMoves([at(1, 1), at(10, 1), at(18, 1)], [at(9, 1)], open, null)
    expect(moves.onFloor).toEqual([{ from: 1, to: 0, metres: 1 }])
    expect(moves.toStore).toEqual([0, 2])
  })

  test('come from a stack one like the other', () => {
    const stack = [at(1, 1), at(1, 1), at(1, 1)]
    const moves = leastMoves(stack, [at(2, 1), at(3, 1)], open, null)
    expect(moves.onFloor.map(({ from, to }) => [from, to])).toEqual([
      [0, 0],
      [1, 1],
    ])
    expect(moves.toStore).toEqual([2])
  })

  test('are none where there are none', () => {
    expect(leastMoves([], [], open, null)).toEqual({ onFloor: [], toStore: [], fromStore: [] })
    expect(leastMoves([], [at(1, 1)], open, at(0, 0))).toEqual({ onFloor: [], toStore: [], fromStore: [0] })
    expect(leastMoves([at(1, 1)], [], open, null)).toEqual({ onFloor: [], toStore: [0], fromStore: [] })
  })

  test('are all moved once where there are more of them than are looked at together', () => {
    const row = (count: number, y: number) =>
      Array.from({ length: count }, (_, index) => at((index * 20) / count, y))
    const moves = leastMoves(row(1300, 1), row(1250, 2), open, at(20, 6))
    expect(moves.onFloor).toHaveLength(1250)
    expect(new Set(moves.onFloor.map(({ from }) => from)).size).toBe(1250)
    expect(new Set(moves.onFloor.map(({ to }) => to)).size).toBe(1250)
    expect(moves.toStore).toHaveLength(50)
  })
})

const aPlace = fc
  .tuple(fc.integer({ min: 0, max: 20 }), fc.integer({ min: 0, max: 12 }))
  .map(([x, y]) => at(x, y))
const somePlaces = fc.array(aPlace, { maxLength: 7 })

/** Every way to pair pieces with places or with the store, what stays among them; the least sum of metres. */
function leastByExhaustion(
  from: readonly FloorPoint[],
  to: readonly FloorPoint[],
  door: FloorPoint,
  routeMetres: number,
  things: readonly FixedThing[],
): number {
  const paths = floorPaths(hall, things)
  const between = paths.metresBetween(from, to)
  const out = paths.metresBetween(from, [door])
  const back = paths.metresBetween(to, [door])
  const isTaken = to.map(() => false)
  const best = (piece: number): number => {
    if (piece === from.length) {
      return to.reduce((sum, _, place) => sum + (isTaken[place] ? 0 : back[place]! + routeMetres), 0)
    }
    let least = out[piece]! + routeMetres + best(piece + 1)
    for (const [place] of to.entries()) {
      if (isTaken[place]) continue
      isTaken[place] = true
      least = Math.min(least, between[piece * to.length + place]! + best(piece + 1))
      isTaken[place] = false
    }
    return least
  }
  return best(0)
}

describe('the moves of any few pieces', () => {
  test('add up to the least of all ways there are, those over the store among them', () => {
    fc.assert(
      fc.property(
        fc.array(aPlace, { maxLength: 5 }),
        fc.array(aPlace, { maxLength: 7 }),
        fc.boolean(),
        fc.boolean(),
        (few, many, isMoreBefore, withStage) => {
          const [from, to] = isMoreBefore ? [many, few] : [few, many]
          const things = withStage ? [stage] : []
          // On the stage ways are no ways any more.
          fc.pre(
            [...from, ...to].every(({ xMetres: x, yMetres: y }) => !withStage || x <= 8 || x >= 12 || y <= 4),
          )
          const door = at(20, 6)
          const paths = floorPaths(hall, things)
          const moves = leastMoves(from, to, paths, door)
          const out = paths.metresBetween(from, [door])
          const back = paths.metresBetween(to, [door])
          const routeMetres = 15
          const total =
            metresOnFloor(moves) +
            moves.toStore.reduce((sum, piece) => sum + out[piece]! + routeMetres, 0) +
            moves.fromStore.reduce((sum, place) => sum + back[place]! + routeMetres, 0)
          // To half a millimetre for each.
          expect(total).toBeCloseTo(leastByExhaustion(from, to, door, routeMetres, things), 2)
        },
      ),
      { seed: 31, numRuns: 150 },
    )
  })

  test('move every piece and fill every place once', () => {
    fc.assert(
      fc.property(somePlaces, somePlaces, (from, to) => {
        const { onFloor, toStore, fromStore } = leastMoves(from, to, open, null)
        const ascending = (a: number, b: number) => a - b
        expect([...onFloor.map((move) => move.from), ...toStore].sort(ascending)).toEqual(
          from.map((_, i) => i),
        )
        expect([...onFloor.map((move) => move.to), ...fromStore].sort(ascending)).toEqual(to.map((_, i) => i))
      }),
      { seed: 32, numRuns: 200 },
    )
  })
})
