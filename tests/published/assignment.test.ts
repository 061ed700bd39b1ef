/**
 * The assignment problem against worked examples from outside.
 * @source "Solving an Assignment Problem", developers.google.com/optimization/assignment/assignment_example: the costs
 *         of five workers and four tasks; its optimum of 265 from memory, and computed by another program
 * @source the example of `linear_sum_assignment` in the reference manual of SciPy, from memory; its optimum of 5
 *         computed by another program too
 */
import { describe, expect, test } from 'vitest'
import { cheapestTransport } from '../../src/scheduler/placement/cheapest-transport.ts'

/** The column of each row (null: none), and what that costs. */
function assigned(rows: readonly (readonly number[])[]) {
  const columns = rows[0]!.length
  const flow = cheapestTransport({
    supplies: rows.map(() => 1),
    demands: rows[0]!.map(() => 1),
    costs: Float64Array.from(rows.flat()),
  })
  const columnOfRow = rows.map((_, row) => {
    const column = flow.subarray(row * columns, (row + 1) * columns).indexOf(1)
    return column < 0 ? null : column
  })
  const cost = columnOfRow.reduce<number>(
    (sum, column, row) => sum + (column === null ? 0 : rows[row]![column]!),
    0,
  )
  return { columnOfRow, cost }
}

describe('who does what for the least cost', () => {
  test('of five workers and four tasks is what the worked example says: 265, and the last one is idle', () => {
    const costs = [
      [90, 80, 75, 70],
      [35, 85, 55, 65],
      [125, 95, 90, 95],
      [45, 110, 95, 115],
      [50, 100, 90, 100],
    ]
    expect(assigned(costs)).toEqual({ columnOfRow: [3, 2, 1, 0, null], cost: 265 })
  })

  test('of three and three is what the manual says: 5', () => {
    const costs = [
      [4, 1, 3],
      [2, 0, 5],
      [3, 2, 2],
    ]
    expect(assigned(costs)).toEqual({ columnOfRow: [1, 0, 2], cost: 5 })
  })
})
