/**
 * How many people a layout holds by its floor. Which row of the load table fits what stands in it is often open: the
 * smallest load is what may be promised to guests, the greatest is what the exits must serve.
 */
import type { UnitSystem } from '../../../domain/site.ts'
import { listText } from '../../wording/list-text.ts'
import type { CodeTables, SpaceUse } from '../occupancy/code-tables.ts'
import { type LoadPart, type OccupantLoad, occupantLoad } from '../occupancy/occupant-load.ts'
import { type AdviceInput, tablesOf } from './advice-input.ts'
import { areaText, numberText } from './measure-text.ts'

export interface FloorLoad extends OccupantLoad {
  /** Onlookers on chairs beside a games floor, one person each; they are in both totals. */
  readonly onlookers: number
}

export interface LayoutLoads {
  /** The row that gives the fewest. */
  readonly toPromise: FloorLoad
  /** The row that gives the most; never fewer people than to promise. */
  readonly toDesignFor: FloorLoad
}

type LoadFacts = Pick<
  AdviceInput,
  | 'locale'
  | 'tables'
  | 'layoutKind'
  | 'seats'
  | 'netAreaSquareMetres'
  | 'tablesCount'
  | 'chairSeats'
  | 'stageAreaSquareMetres'
>

/**
 * No floor gives nobody. A stage takes its footprint off the floor and is loaded by its own row. Where the tables have
 * no such row it is no place for guests, but exits are planned as if it were floor like the rest. A stage whose size is
 * not known is floor like the rest both ways.
 * @throws RangeError for an area that cannot be
 */
export function layoutLoads(input: LoadFacts): LayoutLoads {
  const tables = tablesOf(input)
  const uses = usesThatFit(input, tables)
  const toPromise = uses.map((use) => loadOf(tables, stageApart(input, tables, use), 0))
  const onlookers = input.layoutKind === 'games' ? input.chairSeats : 0
  const toDesignFor = uses.map((use) => {
    const parts = tables.loadFactors.stage
      ? stageApart(input, tables, use)
      : [{ use, areaSquareMetres: input.netAreaSquareMetres }]
    return loadOf(tables, parts, use === tables.useOfLayout[input.layoutKind].use ? onlookers : 0)
  })
  return {
    toPromise: toPromise.reduce((least, load) =>
      load.peopleToPromise < least.peopleToPromise ? load : least,
    ),
    toDesignFor: toDesignFor.reduce((most, load) =>
      load.peopleToDesignFor > most.peopleToDesignFor ? load : most,
    ),
  }
}

/** Whether people may sit in rows, as far as the rows of the load table can tell. */
export const maySitInRows = (input: LoadFacts): boolean =>
  usesThatFit(input, tablesOf(input)).includes('rows-of-chairs')

function usesThatFit({ layoutKind, seats, tablesCount, chairSeats }: LoadFacts, tables: CodeTables) {
  const usual = tables.useOfLayout[layoutKind].use
  const uses = new Set<SpaceUse>([usual])
  if (layoutKind === 'worship' || layoutKind === 'overflow') return [...uses]
  if (tablesCount > 0) {
    // Chairs that stand at tables are no rows.
    uses.delete('rows-of-chairs')
    uses.add('tables-and-chairs')
  } else if (layoutKind !== 'games' && chairSeats + (seats ?? 0) > 0) uses.add('rows-of-chairs')
  return [...uses]
}

function stageApart(input: LoadFacts, tables: CodeTables, use: SpaceUse): LoadPart[] {
  const stage = Math.min(input.stageAreaSquareMetres ?? 0, input.netAreaSquareMetres)
  const rest = { use, areaSquareMetres: input.netAreaSquareMetres - stage }
  return stage > 0 && tables.loadFactors.stage ? [rest, { use: 'stage', areaSquareMetres: stage }] : [rest]
}

function loadOf(tables: CodeTables, parts: readonly LoadPart[], onlookers: number): FloorLoad {
  return { ...occupantLoad({ tables, parts, fixedSeats: onlookers }), onlookers }
}

/** Whether they are two answers to one question, rounding apart. */
export const loadsDiffer = ({ toPromise, toDesignFor }: LayoutLoads): boolean =>
  toPromise.peopleToPromise !== toDesignFor.peopleToPromise

/**
 * What a load is made of: `342 people in rows of chairs at 7 ft² a person`. Beside its sum (`withCount` false) a single part is
 * only its row: `people in rows of chairs at 7 ft² a person`.
 */
export function loadText(
  load: FloorLoad,
  input: LoadFacts & { readonly units: UnitSystem },
  rounded: 'peopleToDesignFor' | 'peopleToPromise',
  withCount = true,
): string {
  const tables = tablesOf(input)
  const counted = withCount || load.parts.length > 1 || load.onlookers > 0
  const count = (people: number, words: string) =>
    counted ? `${numberText(people)} ${people === 1 ? words.replace(/^people/, 'person') : words}` : words
  const parts = load.parts.map((part) => {
    const words = tables.loadFactors[part.use]!.people
    const isLikened = part.use === 'tables-and-chairs' && maySitInRows(input)
    const who = isLikened ? `people, counted as ${words},` : words
    return `${count(part[rounded], who)} at ${areaText(part.squareMetresPerPerson, input.units)} a person`
  })
  if (load.onlookers > 0) parts.push(count(load.onlookers, 'people on chairs'))
  const gross = withCount && load.parts.some(({ basis }) => basis === 'gross')
  return `${listText(parts)}${gross ? ', a figure for the whole floor with closets and ways' : ''}`
}
