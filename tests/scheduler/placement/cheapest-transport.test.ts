import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { cheapestTransport } from '../../../src/scheduler/placement/cheapest-transport.ts'

interface Case {
  readonly supplies: readonly number[]
  readonly demands: readonly number[]
  readonly costs: Float64Array
}

const aCase = (rowsMost: number, columnsMost: number, countMost: number): fc.Arbitrary<Case> =>
  fc
    .tuple(
      fc.array(fc.integer({ min: 1, max: countMost }), { minLength: 1, maxLength: rowsMost }),
      fc.array(fc.integer({ min: 1, max: countMost }), { minLength: 1, maxLength: columnsMost }),
    )
    .chain(([supplies, demands]) => {
      const length = supplies.length * demands.length
      // Few different costs make many ties, many make few.
      const costs = fc.oneof(
        fc.array(fc.integer({ min: 0, max: 3 }), { minLength: length, maxLength: length }),
        fc.array(fc.integer({ min: -60, max: 60 }), { minLength: length, maxLength: length }),
      )
      return costs.map((values) => ({ supplies, demands, costs: Float64Array.from(values) }))
    })

/** Tries everything, unit by unit: each unit of the smaller side goes to one of the other, and each way is counted. */
function leastByExhaustion({ supplies, demands, costs }: Case): number {
  const units = (counts: readonly number[]) =>
    counts.flatMap((count, index) => Array.from({ length: count }, () => index))
  const [rows, columns] = [units(supplies), units(demands)]
  const cost = (row: number, column: number) => costs[row * demands.length + column]!
  const [few, many, costOf] =
    rows.length <= columns.length
      ? [rows, columns, cost]
      : [columns, rows, (column: number, row: number) => cost(row, column)]
  const isTaken = many.map(() => false)
  const best = (index: number): number => {
    if (index === few.length) return 0
    let least = Number.POSITIVE_INFINITY
    for (const [place, one] of many.entries()) {
      if (isTaken[place]) continue
      isTaken[place] = true
      least = Math.min(least, costOf(few[index]!, one) + best(index + 1))
      isTaken[place] = false
    }
    return least
  }
  return best(0)
}

const totalOf = ({ costs }: Case, flow: Int32Array): number =>
  flow.reduce((sum, amount, at) => sum + amount * costs[at]!, 0)

const rowSum = (flow: Int32Array, columns: number, row: number): number =>
  flow.subarray(row * columns, (row + 1) * columns).reduce((sum, amount) => sum + amount, 0)

const columnSum = (flow: Int32Array, columns: number, column: number): number =>
  flow.reduce((sum, amount, at) => sum + (at % columns === column ? amount : 0), 0)

function expectAllowed({ supplies, demands }: Case, flow: Int32Array): void {
  const columns = demands.length
  const given = supplies.map((_, row) => rowSum(flow, columns, row))
  const taken = demands.map((_, column) => columnSum(flow, columns, column))
  const total = (counts: readonly number[]) => counts.reduce((sum, count) => sum + count, 0)
  expect(flow.every((amount) => amount >= 0)).toBe(true)
  expect(given.every((amount, row) => amount <= supplies[row]!)).toBe(true)
  expect(taken.every((amount, column) => amount <= demands[column]!)).toBe(true)
  expect(total(given)).toBe(Math.min(total(supplies), total(demands)))
}

describe('what goes where for the least cost', () => {
  test('costs as little as the best of all ways there are, one to one', () => {
    fc.assert(
      fc.property(aCase(7, 6, 1), (one) => {
        const flow = cheapestTransport(one)
        expectAllowed(one, flow)
        expect(totalOf(one, flow)).toBe(leastByExhaustion(one))
      }),
      { seed: 11, numRuns: 400 },
    )
  })

  test('costs as little as the best of all ways there are, where some are alike', () => {
    fc.assert(
      fc.property(aCase(3, 3, 3), (one) => {
        const units = (counts: readonly number[]) => counts.reduce((sum, count) => sum + count, 0)
        fc.pre(Math.max(units(one.supplies), units(one.demands)) <= 7)
        const flow = cheapestTransport(one)
        expectAllowed(one, flow)
        expect(totalOf(one, flow)).toBe(leastByExhaustion(one))
      }),
      { seed: 12, numRuns: 400 },
    )
  })

  test('costs the same in large ones whether what is alike is counted or repeated', () => {
    fc.assert(
      fc.property(aCase(12, 12, 6), (one) => {
        const rows = one.supplies.flatMap((count, row) => Array.from({ length: count }, () => row))
        const columns = one.demands.flatMap((count, column) => Array.from({ length: count }, () => column))
        const repeated = {
          supplies: rows.map(() => 1),
          demands: columns.map(() => 1),
          costs: Float64Array.from(
            rows.flatMap((row) => columns.map((column) => one.costs[row * one.demands.length + column]!)),
          ),
        }
        expect(totalOf(one, cheapestTransport(one))).toBe(totalOf(repeated, cheapestTransport(repeated)))
      }),
      { seed: 13, numRuns: 60 },
    )
  })

  test('is nothing where there is nothing to give or to take', () => {
    expect([...cheapestTransport({ supplies: [], demands: [1, 1], costs: new Float64Array(0) })]).toEqual([])
    expect([...cheapestTransport({ supplies: [2], demands: [], costs: new Float64Array(0) })]).toEqual([])
  })

  test('leaves rows and columns in their order where all ways cost the same', () => {
    const flow = cheapestTransport({ supplies: [1, 1], demands: [1, 1, 1], costs: new Float64Array(6) })
    expect([...flow]).toEqual([1, 0, 0, 0, 1, 0])
  })
})
