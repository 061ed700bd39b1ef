/** Advice on the ways between tables where people sit: what the plan shows, or what to leave where there is no plan. */
import type { CodeTables, TableAccesswayRule } from '../occupancy/code-tables.ts'
import { tableEdgesApartMillimetres } from '../occupancy/table-accessway.ts'
import { type AdviceInput, type AdvicePlacement, tablesOf } from './advice-input.ts'
import { type AdviceItem, type AdviceVerdict, sourceOf } from './advice-item.ts'
import { comparedWidths, countText, numberText, shownWidth, widthText, widthUnit } from './measure-text.ts'
import { metresBetweenTables, reachMetres, standInEachOther } from './table-shape.ts'

/** Long tables nearer than this, and not inside each other, are laid together as one. */
const JOINED_METRES = 0.1
/** Tables farther apart than this are no concern: wider than any way asked for. */
const FARTHEST_METRES = 2

/** @returns one item with the topic `aisles`; none for a layout without tables to sit at */
export function tablesAdvice(input: AdviceInput): AdviceItem[] {
  const tables = tablesOf(input)
  const rule = tables.tableAccessway
  const placed = (input.placements ?? []).filter(
    ({ kind }) => kind === 'round-table' || kind === 'long-table',
  )
  if (!rule) return placed.length > 1 || input.tablesCount > 1 ? [noFigureAdvice(tables)] : []
  if (placed.length > 0) return surveyedAdvice(input, tables, rule, placed)
  return input.tablesCount > 1 ? [wantedAdvice(input, tables, rule)] : []
}

function noFigureAdvice(tables: CodeTables): AdviceItem {
  return {
    topic: 'aisles',
    code: 'table-spacing',
    text: 'No figure is held here for ways between tables under this code: ask the fire and rescue authority.',
    found: null,
    required: null,
    unit: 'mm',
    verdict: 'unknown',
    source: tables.document,
    status: 'no figure held',
  }
}

function wantedAdvice({ units }: AdviceInput, tables: CodeTables, rule: TableAccesswayRule): AdviceItem {
  const needed = neededMillimetres(tables, 2, rule.metresFree)
  return {
    topic: 'aisles',
    code: 'table-spacing',
    text: `Leave at least ${widthText(needed, units)} between the edges of two tables with chairs on both of those sides, so that ${widthText(rule.leastMillimetres, units)} stay clear behind the chairs.`,
    found: null,
    required: shownWidth(needed, units),
    unit: widthUnit(units),
    verdict: 'unknown',
    ...sourceOf(rule),
  }
}

/** Two neighbouring tables, with what the way between them needs at least, and at most, as far as the plan tells. */
interface Spacing {
  readonly apartMillimetres: number
  readonly leastMillimetres: number
  readonly mostMillimetres: number
  readonly verdict: AdviceVerdict
}

function surveyedAdvice(
  { units }: AdviceInput,
  tables: CodeTables,
  rule: TableAccesswayRule,
  placed: readonly AdvicePlacement[],
): AdviceItem[] {
  const spacings = spacingsOf(tables, rule, placed)
  const order: readonly AdviceVerdict[] = ['look', 'unknown', 'ok']
  const worst = spacings.sort(
    (a, b) =>
      order.indexOf(a.verdict) - order.indexOf(b.verdict) ||
      a.apartMillimetres - a.mostMillimetres - (b.apartMillimetres - b.mostMillimetres),
  )[0]
  if (!worst) return []
  const widths = comparedWidths(
    worst.apartMillimetres,
    worst.verdict === 'look' ? worst.leastMillimetres : worst.mostMillimetres,
    units,
  )
  const tooNear = spacings.filter((spacing) => spacing.verdict === 'look').length
  const text = {
    ok: `Tables are ${widths.foundText} apart or more, enough for any way between them (${widths.requiredText}).`,
    look: `Two tables are ${widths.foundText} apart; to pass between them people need ${widths.requiredText} from edge to edge (${numberText(tooNear)} of ${countText(spacings.length, 'gap', 'gaps')} too narrow).`,
    unknown: `Two tables are ${widths.foundText} apart: from ${widthText(worst.leastMillimetres, units)} to ${widths.requiredText} are needed to pass, by the length of the way and the sides with chairs.`,
  }[worst.verdict]
  return [
    {
      topic: 'aisles',
      code: 'table-spacing',
      text,
      found: widths.found,
      required: widths.required,
      unit: widths.unit,
      verdict: worst.verdict,
      ...sourceOf(rule),
    },
  ]
}

/** Only tables that are near one another along the x axis are looked at in pairs: a plan may hold thousands. */
function spacingsOf(
  tables: CodeTables,
  rule: TableAccesswayRule,
  placed: readonly AdvicePlacement[],
): Spacing[] {
  const inOrder = [...placed].sort((a, b) => a.xMetres - b.xMetres)
  const nearMetres = 2 * Math.max(...placed.map(reachMetres)) + FARTHEST_METRES
  const spacings: Spacing[] = []
  for (const [index, table] of inOrder.entries()) {
    for (let next = index + 1; next < inOrder.length; next += 1) {
      const other = inOrder[next]!
      if (other.xMetres - table.xMetres > nearMetres) break
      spacings.push(...spacingOf(tables, rule, table, other))
    }
  }
  return spacings
}

function spacingOf(
  tables: CodeTables,
  rule: TableAccesswayRule,
  a: AdvicePlacement,
  b: AdvicePlacement,
): Spacing[] {
  const middlesApart = Math.hypot(a.xMetres - b.xMetres, a.yMetres - b.yMetres)
  if (middlesApart - reachMetres(a) - reachMetres(b) > FARTHEST_METRES) return []
  const metres = metresBetweenTables(a, b)
  if (metres > FARTHEST_METRES || areLaidTogether(a, b, metres)) return []
  const apartMillimetres = metres * 1000
  const leastMillimetres = neededMillimetres(tables, sides(a, 'for-certain', b), rule.metresFree)
  const mostMillimetres = neededMillimetres(tables, sides(a, 'at-most', b), rule.longestMetres)
  const reaches = (needed: number) => Math.round(apartMillimetres) >= Math.round(needed)
  const verdict = reaches(mostMillimetres) ? 'ok' : reaches(leastMillimetres) ? 'unknown' : 'look'
  return [{ apartMillimetres, leastMillimetres, mostMillimetres, verdict }]
}

/** Nobody passes between long tables that stand edge to edge; round ones cannot be put together. */
const areLaidTogether = (a: AdvicePlacement, b: AdvicePlacement, metresApart: number): boolean =>
  metresApart < JOINED_METRES && a.kind === 'long-table' && b.kind === 'long-table' && !standInEachOther(a, b)

/** Chairs stand all round a round table; at a long one nobody knows at which sides. */
function sides(a: AdvicePlacement, sure: 'for-certain' | 'at-most', b: AdvicePlacement): 0 | 1 | 2 {
  const hasChairs = ({ kind, seatsPerPiece }: AdvicePlacement): boolean =>
    sure === 'at-most' ? seatsPerPiece !== 0 : kind === 'round-table' && (seatsPerPiece ?? 0) > 0
  const [first, second] = [hasChairs(a), hasChairs(b)]
  return first && second ? 2 : first || second ? 1 : 0
}

/** For a way that more than four people use. */
const neededMillimetres = (tables: CodeTables, sidesWithChairs: 0 | 1 | 2, lengthMetres: number): number =>
  tableEdgesApartMillimetres(tables, { lengthMetres, people: 5, sidesWithChairs }) ?? 0
