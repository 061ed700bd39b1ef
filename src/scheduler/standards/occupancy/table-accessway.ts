/** The way between tables to an aisle. */
import { amount, count } from './checked-number.ts'
import type { CodeTables } from './code-tables.ts'
import { feetFromMetres } from './imperial-units.ts'
import { wholeUp } from './whole-number.ts'

export interface TableAccessway {
  /** 0 where nothing is asked. */
  readonly clearWidthMillimetres: number
  /** False: too long, a second way out of it is needed whatever its width. */
  readonly lengthIsAllowed: boolean
}

/**
 * The clear width of a way between tables, for its length from the farthest seat to an aisle; a part of a foot counts
 * as a whole one. Nobody, or no length, asks for nothing. Null where the tables have no figure.
 * @throws RangeError for a negative or unbounded length, or people that are not a whole number of 0 or more
 * @source IBC 1030.13.1.1 and 1030.13.1.2
 */
export function tableAccessway(
  tables: CodeTables,
  input: { readonly lengthMetres: number; readonly people: number },
): TableAccessway | null {
  const length = amount('lengthMetres', input.lengthMetres)
  const people = count('people', input.people)
  const rule = tables.tableAccessway
  if (!rule) return null
  // A micrometre for the last binary digit: 6 ft are 6 ft.
  const isShort = length <= rule.nothingAskedUpToMetres + 1e-6 && people <= rule.nothingAskedUpToPeople
  const feetBeyond = wholeUp(feetFromMetres(length - rule.metresFree))
  return {
    clearWidthMillimetres:
      people === 0 || length === 0 || isShort
        ? 0
        : rule.leastMillimetres + feetBeyond * rule.millimetresPerFootBeyond,
    lengthIsAllowed: people === 0 || length <= rule.longestMetres + 1e-6,
  }
}

/**
 * How far apart the edges of two tables must stand, in millimetres, so that people can pass where chairs stand on
 * none, one or both of the sides between them. Null where the tables have no figure.
 * @throws RangeError as `tableAccessway`
 * @source IBC 1030.13.1: measured 19 in out from the edge of a table with chairs
 */
export function tableEdgesApartMillimetres(
  tables: CodeTables,
  input: { readonly lengthMetres: number; readonly people: number; readonly sidesWithChairs: 0 | 1 | 2 },
): number | null {
  const way = tableAccessway(tables, input)
  const rule = tables.tableAccessway
  if (!way || !rule) return null
  return way.clearWidthMillimetres + input.sidesWithChairs * rule.chairDepthMillimetres
}
