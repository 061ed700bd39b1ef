/** How many exits, how far apart, and how their doors open. */
import type { FloorPoint } from '../../../domain/floor.ts'
import { count, finite, positive } from './checked-number.ts'
import type { CodeTables } from './code-tables.ts'

/**
 * Exits that so many people need: 0 for nobody, never fewer for more people.
 * @throws RangeError for people that are not a whole number of 0 or more
 * @source IBC 1006.2.1, Table 1006.3.3; Approved Document B vol 2, Table 2.2
 */
export function exitsNeeded(tables: CodeTables, people: number): number {
  if (count('people', people) === 0) return 0
  return exitCountRow(tables, people).exits
}

/** The row of the table that holds for so many people. */
export function exitCountRow(tables: CodeTables, people: number): CodeTables['exitCounts'][number] {
  return tables.exitCounts.find((row) => row.peopleAtMost === null || people <= row.peopleAtMost)!
}

/** The most people that so many exits may serve by their number alone: 0 for none, null: as many as like. */
export function peopleByNumberOfExits(tables: CodeTables, exits: number): number | null {
  const row = lastRowServed(tables, exits)
  return row ? row.peopleAtMost : 0
}

/** The row of the table up to which so many exits are enough by their number; none for no exit. */
export function lastRowServed(
  tables: CodeTables,
  exits: number,
): CodeTables['exitCounts'][number] | undefined {
  count('exits', exits)
  return tables.exitCounts.findLast((row) => row.exits <= exits)
}

export interface ExitsApart {
  readonly farthestMetres: number
  readonly neededMetres: number
  readonly areFarEnough: boolean
}

/**
 * Whether two of the exits are far enough apart not to be lost to one fire, by the straight line between them.
 * Null for fewer than two positions, and where the tables have no figure.
 * @param roomDiagonalMetres  the longest diagonal of the room, above 0
 * @throws RangeError for a position or diagonal that is not a number, or a diagonal of 0 or less
 * @source IBC 1007.1.1
 */
export function exitsApart(
  tables: CodeTables,
  input: {
    readonly exits: readonly FloorPoint[]
    readonly roomDiagonalMetres: number
    readonly sprinklered: boolean
  },
): ExitsApart | null {
  const diagonal = positive('roomDiagonalMetres', input.roomDiagonalMetres)
  input.exits.forEach((exit, index) => {
    finite(`exits[${index}].xMetres`, exit.xMetres)
    finite(`exits[${index}].yMetres`, exit.yMetres)
  })
  const rule = tables.exitSeparation
  if (!rule || input.exits.length < 2) return null
  const share = input.sprinklered ? rule.shareOfDiagonalSprinklered : rule.shareOfDiagonal
  const farthestMetres = farthestPairMetres(input.exits)
  const neededMetres = share * diagonal
  // A micrometre for the last binary digit: exits that lie exactly at the limit are far enough.
  return { farthestMetres, neededMetres, areFarEnough: farthestMetres + 1e-6 >= neededMetres }
}

function farthestPairMetres(points: readonly FloorPoint[]): number {
  let farthest = 0
  for (const [index, a] of points.entries()) {
    for (const b of points.slice(index + 1)) {
      farthest = Math.max(farthest, Math.hypot(a.xMetres - b.xMetres, a.yMetres - b.yMetres))
    }
  }
  return farthest
}

/**
 * Whether exit doors must open in the direction of escape; null where the tables have no figure.
 * @throws RangeError for people that are not a whole number of 0 or more
 */
export function outwardSwingNeeded(tables: CodeTables, people: number): boolean | null {
  count('people', people)
  return tables.outwardSwingFromPeople && people >= tables.outwardSwingFromPeople.value
}

/** The same for panic hardware on doors that latch. */
export function panicHardwareNeeded(tables: CodeTables, people: number): boolean | null {
  count('people', people)
  return tables.panicHardwareFromPeople && people >= tables.panicHardwareFromPeople.value
}
