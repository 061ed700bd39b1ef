/**
 * The assignment problem, exactly, with rows and columns that are alike counted instead of repeated: so much of each row
 * goes to columns that take so much each, and the costs add up to the least there is. With counts of 1 it is the plain
 * assignment of rows to columns. Shortest augmenting paths with potentials: at most as many searches as units, each
 * O(rows × columns).
 * @source H. W. Kuhn, "The Hungarian method for the assignment problem", Naval Research Logistics Quarterly 2 (1955);
 *         R. Jonker, A. Volgenant, "A shortest augmenting path algorithm for dense and sparse linear assignment
 *         problems", Computing 38 (1987). Both from memory
 */

export interface TransportProblem {
  /** How much each row has to give, 1 or more. */
  readonly supplies: readonly number[]
  /** How much each column takes, 1 or more. */
  readonly demands: readonly number[]
  /** Of one unit, row after row, rows × columns whole numbers, negative ones too. Sums stay exact below 2^53. */
  readonly costs: Float64Array
}

/**
 * As much as there is on the smaller side goes somewhere; what is left over costs nothing.
 * @returns how much goes from each row to each column, row after row. Of several cheapest ones always the same: rows
 *          choose in their order, the lowest column first
 */
export function cheapestTransport(problem: TransportProblem): Int32Array {
  const { supplies, demands, costs } = problem
  if (sum(supplies) > sum(demands)) {
    const turnedCosts = turnedRound(costs, demands.length, new Float64Array(costs.length))
    const flow = cheapestTransport({ supplies: demands, demands: supplies, costs: turnedCosts })
    return turnedRound(flow, supplies.length, new Int32Array(flow.length))
  }
  const search = newSearch(problem)
  if (sum(supplies) === sum(demands)) pricesOfColumns(search)
  takeWhatIsFree(search)
  for (let row = 0; row < supplies.length; row += 1) {
    while (search.left[row]! > 0) sendOn(search, row)
  }
  return search.flow
}

interface Search {
  readonly columns: number
  readonly costs: Float64Array
  readonly flow: Int32Array
  /** What rows still have to give, and columns still take. */
  readonly left: Int32Array
  readonly free: Int32Array
  /** Rows that send to a column, and columns that a row sends to. */
  readonly senders: readonly number[][]
  readonly receivers: readonly number[][]
  /**
   * Cost less both potentials is never negative, and 0 where something goes. Where columns take more than there is, one
   * that still takes something keeps the potential 0: so what is left over costs nothing.
   */
  readonly rowPotential: Float64Array
  readonly columnPotential: Float64Array
  /** Of one search: the cheapest way to each column, the row before it, and the column before each row. */
  readonly reach: Float64Array
  readonly rowBefore: Int32Array
  readonly columnBefore: Int32Array
  readonly isSeen: Uint8Array
  /** Columns: those from the front are still to be settled. And where each of them is. */
  readonly open: Int32Array
  readonly placeInOpen: Int32Array
}

const newSearch = ({ supplies, demands, costs }: TransportProblem): Search => ({
  columns: demands.length,
  costs,
  flow: new Int32Array(supplies.length * demands.length),
  left: Int32Array.from(supplies),
  free: Int32Array.from(demands),
  senders: demands.map(() => []),
  receivers: supplies.map(() => []),
  rowPotential: new Float64Array(supplies.length),
  columnPotential: new Float64Array(demands.length),
  reach: new Float64Array(demands.length),
  rowBefore: new Int32Array(demands.length),
  columnBefore: new Int32Array(supplies.length),
  isSeen: new Uint8Array(supplies.length),
  open: new Int32Array(demands.length),
  placeInOpen: new Int32Array(demands.length),
})

/** Where nothing is left over a column may have any price: what it costs the row that is nearest to it. */
function pricesOfColumns({ columns, costs, left, columnPotential }: Search): void {
  for (let column = 0; column < columns; column += 1) {
    let least = Number.POSITIVE_INFINITY
    for (let row = 0; row < left.length; row += 1) least = Math.min(least, costs[row * columns + column]!)
    columnPotential[column] = least
  }
}

/** Each row takes its cheapest column as far as that is free: most of a plan that hardly changes is done by that. */
function takeWhatIsFree(search: Search): void {
  const { columns, costs, left, free, rowPotential, columnPotential } = search
  for (let row = 0; row < left.length; row += 1) {
    const first = row * columns
    let best = 0
    let bestCost = Number.POSITIVE_INFINITY
    for (let column = 0; column < columns; column += 1) {
      const cost = costs[first + column]! - columnPotential[column]!
      const isBetter = cost < bestCost || (cost === bestCost && free[best] === 0 && free[column]! > 0)
      if (!isBetter) continue
      bestCost = cost
      best = column
    }
    rowPotential[row] = bestCost
    const amount = Math.min(left[row]!, free[best]!)
    left[row]! -= amount
    free[best]! -= amount
    change(search, row, best, amount)
  }
}

function change(
  { columns, flow, senders, receivers }: Search,
  row: number,
  column: number,
  amount: number,
): void {
  if (amount === 0) return
  const at = row * columns + column
  const before = flow[at]!
  flow[at] = before + amount
  if (before === 0) {
    senders[column]!.push(row)
    receivers[row]!.push(column)
  }
  if (before + amount === 0) {
    removeFrom(senders[column]!, row)
    removeFrom(receivers[row]!, column)
  }
}

const removeFrom = (list: number[], one: number): void => {
  list.splice(list.indexOf(one), 1)
}

/** Sends on from a row by the cheapest way to a free column, over rows that send elsewhere instead. */
function sendOn(search: Search, startRow: number): void {
  const { columns, free, reach, isSeen, open, placeInOpen } = search
  reach.fill(Number.POSITIVE_INFINITY)
  isSeen.fill(0)
  for (let column = 0; column < columns; column += 1) {
    open[column] = column
    placeInOpen[column] = column
  }
  const rows = [startRow]
  isSeen[startRow] = 1
  let openCount = settleReceivers(search, rows, 0, 0, columns)
  let looked = 0
  let settledAt = 0
  for (;;) {
    let nearest = looked === rows.length ? nearestOpen(search, NO_ROW, settledAt, openCount) : 0
    for (; looked < rows.length; looked += 1) {
      nearest = nearestOpen(search, rows[looked]!, settledAt, openCount)
    }
    settledAt = reach[nearest]!
    openCount = settle(search, nearest, openCount)
    if (free[nearest]! > 0) {
      changePotentials(search, rows, openCount, settledAt)
      push(search, startRow, nearest)
      return
    }
    const first = rows.length
    seeSenders(search, rows, nearest)
    openCount = settleReceivers(search, rows, first, settledAt, openCount)
  }
}

function settle({ open, placeInOpen }: Search, column: number, openCount: number): number {
  const last = open[openCount - 1]!
  const place = placeInOpen[column]!
  open[place] = last
  placeInOpen[last] = place
  open[openCount - 1] = column
  placeInOpen[column] = openCount - 1
  return openCount - 1
}

function seeSenders({ senders, columnBefore, isSeen }: Search, rows: number[], column: number): void {
  for (const row of senders[column]!) {
    if (isSeen[row]) continue
    isSeen[row] = 1
    columnBefore[row] = column
    rows.push(row)
  }
}

/** Where a row sends already is as far as the row itself: that is settled at once, and so are those who send there too. */
function settleReceivers(
  search: Search,
  rows: number[],
  first: number,
  settledAt: number,
  openCount: number,
): number {
  const { free, receivers, reach, rowBefore, placeInOpen } = search
  let left = openCount
  for (let index = first; index < rows.length; index += 1) {
    const row = rows[index]!
    for (const column of receivers[row]!) {
      if (placeInOpen[column]! >= left || free[column]! > 0) continue
      if (settledAt < reach[column]!) {
        reach[column] = settledAt
        rowBefore[column] = row
      }
      left = settle(search, column, left)
      seeSenders(search, rows, column)
    }
  }
  return left
}

const NO_ROW = -1

/**
 * The nearest column that is open, once the ways over a row that is reached at `settledAt` are known; of several
 * a free one, as it ends the search, else the lowest. All of the time is spent here.
 */
function nearestOpen(search: Search, row: number, settledAt: number, openCount: number): number {
  const { columns, costs, free, rowPotential, columnPotential, reach, rowBefore, open } = search
  const first = row * columns
  const base = row === NO_ROW ? 0 : settledAt - rowPotential[row]!
  let best = -1
  let bestReach = Number.POSITIVE_INFINITY
  for (let at = 0; at < openCount; at += 1) {
    const column = open[at]!
    let known = reach[column]!
    if (row !== NO_ROW) {
      const through = base + costs[first + column]! - columnPotential[column]!
      if (through < known) {
        known = through
        reach[column] = through
        rowBefore[column] = row
      }
    }
    if (known > bestReach) continue
    if (known === bestReach && best >= 0) {
      const isFree = free[column]! > 0
      if (isFree === free[best]! > 0 ? column > best : !isFree) continue
    }
    bestReach = known
    best = column
  }
  return best
}

function changePotentials(
  { columns, rowPotential, columnPotential, reach, columnBefore, open }: Search,
  rows: readonly number[],
  openCount: number,
  settledAt: number,
): void {
  for (const [index, row] of rows.entries()) {
    rowPotential[row]! += index === 0 ? settledAt : settledAt - reach[columnBefore[row]!]!
  }
  for (let at = openCount; at < columns; at += 1) {
    columnPotential[open[at]!]! -= settledAt - reach[open[at]!]!
  }
}

/** As much as the start has, the end takes and every row on the way can send elsewhere. */
function push(search: Search, startRow: number, endColumn: number): void {
  const { columns, flow, left, free, rowBefore, columnBefore } = search
  let amount = Math.min(left[startRow]!, free[endColumn]!)
  for (let row = rowBefore[endColumn]!; row !== startRow; row = rowBefore[columnBefore[row]!]!) {
    amount = Math.min(amount, flow[row * columns + columnBefore[row]!]!)
  }
  left[startRow]! -= amount
  free[endColumn]! -= amount
  let column = endColumn
  for (let row = rowBefore[column]!; ; row = rowBefore[column]!) {
    change(search, row, column, amount)
    if (row === startRow) return
    column = columnBefore[row]!
    change(search, row, column, -amount)
  }
}

const sum = (counts: readonly number[]): number => counts.reduce((total, count) => total + count, 0)

/** @param turned  of the same length; filled with the columns as rows */
function turnedRound<Numbers extends Float64Array | Int32Array>(
  numbers: Float64Array | Int32Array,
  columns: number,
  turned: Numbers,
): Numbers {
  const rows = columns === 0 ? 0 : numbers.length / columns
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      turned[column * rows + row] = numbers[row * columns + column]!
    }
  }
  return turned
}
