/** A published figure and where it comes from. */

/**
 * How far a figure can be trusted: `read` in the document itself; `second-hand`: read in a page that quotes the
 * document; `from memory`: not seen in a source; `common practice, no source`: a starting guess.
 */
export type SourceStatus = 'read' | 'second-hand' | 'from memory' | 'common practice, no source'

export interface Sourced {
  /** Document, section and edition. */
  readonly source: string
  readonly status: SourceStatus
}

export interface SourcedFigure extends Sourced {
  readonly value: number
}

/** One source for several figures is quoted once; the status is that of the least sure of them. */
export function leastSure(rows: readonly Sourced[]): SourceStatus {
  const order: readonly SourceStatus[] = ['read', 'second-hand', 'from memory', 'common practice, no source']
  const worst = rows.reduce((index, row) => Math.max(index, order.indexOf(row.status)), 0)
  return order[worst]!
}
