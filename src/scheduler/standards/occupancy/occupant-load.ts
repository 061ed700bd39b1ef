/** How many people a floor holds: to plan exits for, and to promise. */

import { amount, count } from './checked-number.ts'
import type { CodeTables, SpaceUse } from './code-tables.ts'
import type { Sourced } from './sourced.ts'
import { wholeDown, wholeUp } from './whole-number.ts'

export interface LoadPart {
  readonly use: SpaceUse
  /** Net or gross, as the row of the table says (`basis` in the answer); 0 or more. */
  readonly areaSquareMetres: number
}

export interface LoadInput {
  readonly tables: CodeTables
  readonly parts: readonly LoadPart[]
  /** Seats fixed to the floor, one person each; left out: none. */
  readonly fixedSeats?: number
  /** Length of each pew or bench without arms, in millimetres; left out: none. */
  readonly benchesMillimetres?: readonly number[]
}

export interface LoadOfPart extends Sourced {
  readonly use: SpaceUse
  readonly squareMetresPerPerson: number
  readonly basis: 'net' | 'gross'
  readonly peopleToDesignFor: number
  readonly peopleToPromise: number
}

export interface OccupantLoad {
  /** What the exits must serve: each part rounded up, then added. */
  readonly peopleToDesignFor: number
  /** What may be promised to guests: each part rounded down, then added. */
  readonly peopleToPromise: number
  readonly parts: readonly LoadOfPart[]
}

/**
 * The occupant load of a floor with one or several uses side by side. The tables do not say how to round: up for
 * exits and down for promises is common practice, no source. No parts, no seats and no benches give 0 people.
 * @throws RangeError for a negative or unbounded area, seats or length, and for a use without a figure in the tables
 * @source IBC Table 1004.5 and 1004.6; Approved Document B vol 2, Appendix D
 */
export function occupantLoad({
  tables,
  parts,
  fixedSeats = 0,
  benchesMillimetres = [],
}: LoadInput): OccupantLoad {
  const partLoads = parts.map((part, index) => loadOfPart(tables, part, `parts[${index}]`))
  const seated =
    count('fixedSeats', fixedSeats) +
    benchesMillimetres
      .map((length, index) =>
        wholeDown(amount(`benchesMillimetres[${index}]`, length) / tables.benchMillimetresPerPerson.value),
      )
      .reduce((sum, people) => sum + people, 0)
  return {
    peopleToDesignFor: partLoads.reduce((sum, part) => sum + part.peopleToDesignFor, seated),
    peopleToPromise: partLoads.reduce((sum, part) => sum + part.peopleToPromise, seated),
    parts: partLoads,
  }
}

function loadOfPart(tables: CodeTables, { use, areaSquareMetres }: LoadPart, field: string): LoadOfPart {
  const factor = tables.loadFactors[use]
  if (!factor) throw new RangeError(`${field}.use: the ${tables.locale} table has no figure for ${use}`)
  const people = amount(`${field}.areaSquareMetres`, areaSquareMetres) / factor.squareMetresPerPerson
  return {
    use,
    squareMetresPerPerson: factor.squareMetresPerPerson,
    basis: factor.basis,
    peopleToDesignFor: wholeUp(people),
    peopleToPromise: wholeDown(people),
    source: factor.source,
    status: factor.status,
  }
}

/**
 * The most people a load may be raised to on purpose, where exits and aisles would serve more than the table gives;
 * 0 for no floor, null where the tables set no ceiling.
 * @throws RangeError for a negative or unbounded area
 */
export function raisedLoadMost(tables: CodeTables, areaSquareMetres: number): number | null {
  const area = amount('areaSquareMetres', areaSquareMetres)
  const densest = tables.densestSquareMetresPerPerson
  return densest && wholeDown(area / densest.value)
}
