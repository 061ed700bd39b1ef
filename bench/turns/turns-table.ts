/** What came of planning the turns in each way, as a table. */
import { quantile } from '../load.ts'
import type { PlannedTurn } from './ways-of-planning.ts'

interface Row {
  readonly name: string
  readonly results: readonly PlannedTurn[]
}

const HEADINGS = ['planned', 'p50 ms', 'p95 ms', 'found', 'in time', 'over bound', 'at bound']

/**
 * Milliseconds of a turn; then of its plans: the share that was found, the share in time; of those found, how much later
 * than the bound they are ready in the mean, in percent of the bound, and the share ready at the bound. – where there is none.
 */
export function turnsTable(rows: readonly Row[]): string {
  const cells = [HEADINGS, ...rows.map(cellsOf)]
  const widths = HEADINGS.map((_, column) => Math.max(...cells.map((row) => row[column]!.length)))
  return cells
    .map((row) =>
      row
        .map((cell, column) => (column === 0 ? cell.padEnd(widths[column]!) : cell.padStart(widths[column]!)))
        .join('  '),
    )
    .join('\n')
}

function cellsOf({ name, results }: Row): string[] {
  const milliseconds = results.map((result) => result.milliseconds).sort((a, b) => a - b)
  const plans = results.flatMap((result) => result.plans)
  const gaps = plans.flatMap(({ readyTick, boundTick }) =>
    readyTick === null || boundTick === null || boundTick === 0 ? [] : [readyTick / boundTick - 1],
  )
  return [
    name,
    quantile(milliseconds, 0.5).toFixed(1),
    quantile(milliseconds, 0.95).toFixed(1),
    percent(plans.filter(({ readyTick }) => readyTick !== null).length, plans.length),
    percent(plans.filter(({ isInTime }) => isInTime).length, plans.length),
    percent(
      gaps.reduce((sum, gap) => sum + gap, 0),
      gaps.length,
    ),
    percent(gaps.filter((gap) => gap === 0).length, gaps.length),
  ]
}

const percent = (part: number, of: number): string => (of === 0 ? '–' : `${((100 * part) / of).toFixed(1)} %`)
