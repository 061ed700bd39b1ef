/**
 * `node --import tsx bench/placement/run.ts`: how long it takes to say which of 400 pieces goes where, on a floor with a
 * stage and 8 columns. Processor time, so that a busy machine counts less. Wanted: 50 ms.
 */
import { FixedThing } from '../../src/domain/fixed-thing.ts'
import type { FloorPoint } from '../../src/domain/floor.ts'
import { floorPaths, leastMoves } from '../../src/scheduler/placement/index.ts'

const PIECES = 400
const ROUNDS = 15

const stage = FixedThing.parse({
  name: 'Stage',
  outline: { kind: 'rectangle', xMetres: 10, yMetres: 14, widthMetres: 12, depthMetres: 6 },
})
const columns = Array.from({ length: 8 }, (_, index) =>
  FixedThing.parse({
    name: `Column ${index + 1}`,
    outline: {
      kind: 'rectangle',
      xMetres: 4 + 8 * (index % 4),
      yMetres: index < 4 ? 4 : 10,
      widthMetres: 0.6,
      depthMetres: 0.6,
    },
  }),
)
const floor = { kind: 'rectangle', widthMetres: 34, depthMetres: 20 } as const

/** A fixed row of numbers from 0 to 1, so that every run looks at the same places. */
let state = 1
const next = (): number => {
  state = (state * 48_271) % 2_147_483_647
  return state / 2_147_483_647
}
const scattered = (): FloorPoint[] =>
  Array.from({ length: PIECES }, () => ({ xMetres: next() * 34, yMetres: next() * 13 }))
const inRows = (): FloorPoint[] =>
  Array.from({ length: PIECES }, (_, index) => ({
    xMetres: 3 + 0.6 * (index % 40),
    yMetres: 1 + Math.floor(index / 40),
  }))
const atTables = (): FloorPoint[] =>
  Array.from({ length: PIECES }, (_, index) => {
    const angle = ((index % 8) * Math.PI) / 4
    const table = Math.floor(index / 8)
    return {
      xMetres: 3 + 3 * (table % 10) + Math.cos(angle),
      yMetres: 1.5 + 2.4 * Math.floor(table / 10) + Math.sin(angle),
    }
  })
const alongTheWall = (): FloorPoint[] =>
  Array.from({ length: PIECES }, (_, index) => ({ xMetres: 1 + (index % 20) * 0.5, yMetres: 0.5 }))

const cases: readonly (readonly [string, FloorPoint[], FloorPoint[]])[] = [
  ['scattered → scattered', scattered(), scattered()],
  ['rows → tables', inRows(), atTables()],
  ['stacks along the wall → rows', alongTheWall(), inRows()],
  ['rows → 300 at tables, the rest to the store', inRows(), atTables().slice(0, 300)],
]
for (const [name, from, to] of cases) {
  const times = Array.from({ length: ROUNDS }, () => {
    const startedAt = process.cpuUsage().user / 1000
    leastMoves(from, to, floorPaths(floor, [stage, ...columns]), { xMetres: 34, yMetres: 6 })
    return process.cpuUsage().user / 1000 - startedAt
  })
  const [first, ...others] = times
  const middle = others.sort((a, b) => a - b)[Math.floor(others.length / 2)]!
  console.log(`${name}: ${first!.toFixed(1)} ms at first, then ${middle.toFixed(1)} ms (median)`)
}
