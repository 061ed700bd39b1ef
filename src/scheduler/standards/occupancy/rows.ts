/** Rows of seats: the clear way between them, from the back in front to the nearest projection behind. */
import { amount, count } from './checked-number.ts'
import type { CodeTables, RowRule } from './code-tables.ts'
import { wholeDown } from './whole-number.ts'

export interface RowShape {
  /** Aisles or cross-aisles the row leads to. */
  readonly aisleEnds: 1 | 2
  /** Seats without backrests may be a few more in a row with one aisle; left out: with backrests. */
  readonly backrests?: boolean
}

/**
 * The clear width, in millimetres, that a row needs; 0 for no seats, null where the tables have no figure. A row of
 * more than `rowSeatsMost` seats is not made good by any width.
 * @throws RangeError for seats that are not a whole number of 0 or more
 * @source IBC 1030.13.2.1 (aisle at both ends), 1030.13.2.2 (at one end)
 */
export function rowClearWidthNeededMillimetres(
  tables: CodeTables,
  input: RowShape & { readonly seats: number },
): number | null {
  const seats = count('seats', input.seats)
  const rule = tables.rows
  if (!rule) return null
  if (seats === 0) return 0
  const { seatsFree, millimetresPerSeatBeyond } = endRule(rule, input)
  const beyond = Math.max(0, seats - seatsFree)
  return Math.min(rule.mostClearMillimetres, rule.leastClearMillimetres + beyond * millimetresPerSeatBeyond)
}

/**
 * The most seats a row with that clear width may have: 0 when it is too narrow for any, null without a figure. A row
 * with one aisle is held shorter by how far people may go one way (`travelDistance`).
 * @throws RangeError for a negative or unbounded width
 */
export function rowSeatsMost(
  tables: CodeTables,
  input: RowShape & { readonly clearWidthMillimetres: number },
): number | null {
  const width = amount('clearWidthMillimetres', input.clearWidthMillimetres)
  const rule = tables.rows
  if (!rule) return null
  // A micrometre for the last binary digit: 12 in are 12 in.
  if (width + 1e-3 < rule.leastClearMillimetres) return 0
  if (width + 1e-3 >= rule.mostClearMillimetres) return rule.seatsMost
  const { seatsFree, millimetresPerSeatBeyond } = endRule(rule, input)
  const beyond = wholeDown((width - rule.leastClearMillimetres) / millimetresPerSeatBeyond)
  return Math.min(rule.seatsMost, seatsFree + beyond)
}

function endRule(rule: RowRule, { aisleEnds, backrests = true }: RowShape) {
  if (aisleEnds === 2) return rule.bothEnds
  if (aisleEnds !== 1) throw new RangeError(`aisleEnds: expected 1 or 2, got ${String(aisleEnds)}`)
  return {
    seatsFree: backrests ? rule.oneEnd.seatsFree : rule.oneEnd.seatsFreeWithoutBackrests,
    millimetresPerSeatBeyond: rule.oneEnd.millimetresPerSeatBeyond,
  }
}
