/** How far people may have to go before they have a choice of two ways, and in all. */
import { count } from './checked-number.ts'
import type { CodeTables, TravelRule } from './code-tables.ts'

/**
 * The row that holds: metres one way, until there is a choice, and metres with a choice (null: no figure held).
 * @throws RangeError for people that are not a whole number of 0 or more
 * @source IBC 1030.8; Approved Document B vol 2, Table 2.1
 */
export function travelDistance(
  tables: CodeTables,
  input: { readonly people: number; readonly seatedInRows: boolean },
): TravelRule {
  const people = count('people', input.people)
  return tables.travel.find(
    (row) =>
      (!row.seatedInRows || input.seatedInRows) &&
      (row.peopleFewerThan === null || people < row.peopleFewerThan),
  )!
}
