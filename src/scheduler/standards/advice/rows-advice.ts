/** Advice on rows of chairs and the aisles beside them: what the plan shows, or what to leave where there is no plan. */
import { aisleWidthNeededMillimetres, chairsJoinedAtLeast } from '../occupancy/aisles.ts'
import type { AisleRule, CodeTables, RowRule } from '../occupancy/code-tables.ts'
import { rowClearWidthNeededMillimetres } from '../occupancy/rows.ts'
import { type AdviceInput, tablesOf } from './advice-input.ts'
import { type AdviceItem, type AdviceVerdict, sourceOf } from './advice-item.ts'
import { comparedWidths, countText, numberText, shownWidth, widthText, widthUnit } from './measure-text.ts'
import {
  isChair,
  type RowSurvey,
  rowSurvey,
  type SurveyedAisle,
  type SurveyedRow,
  type SurveyedWay,
} from './row-survey.ts'

/** @returns items with the topic `aisles`; none for a layout without rows of chairs */
export function rowsAdvice(input: AdviceInput): AdviceItem[] {
  const tables = tablesOf(input)
  const placements = input.placements ?? []
  // Of a layout where only tables or a stage are placed, the plan says nothing about its chairs.
  const survey = placements.some(isChair) ? rowSurvey(placements, input.floorCorners ?? []) : undefined
  const hasRows = survey ? survey.ways.length > 0 : isSeatedInRows(input)
  if (!hasRows) return []
  if (!tables.rows || !tables.aisles) return [noFigureAdvice(tables)]
  const chairs = survey?.chairs ?? input.seats ?? 0
  return [
    ...(survey ? surveyedAdvice(input, tables, tables.rows, tables.aisles, survey) : []),
    ...(survey ? [] : wantedAdvice(input, tables.rows, tables.aisles, survey === null)),
    ...joinedAdvice(tables, chairs),
  ]
}

/** Without a plan the kind of layout tells: people without tables sit in rows, unless they play. */
function isSeatedInRows({ layoutKind, tablesCount, seats }: AdviceInput): boolean {
  if (layoutKind === 'worship' || layoutKind === 'overflow') return true
  return tablesCount === 0 && layoutKind !== 'games' && (seats ?? 0) > 0
}

function noFigureAdvice(tables: CodeTables): AdviceItem {
  return {
    topic: 'aisles',
    code: 'row-clear-width',
    text: 'No figure is held here for rows and aisles under this code: ask the fire and rescue authority.',
    found: null,
    required: null,
    unit: 'mm',
    verdict: 'unknown',
    source: tables.document,
    status: 'no figure held',
  }
}

function wantedAdvice(
  { units }: AdviceInput,
  rows: RowRule,
  aisles: AisleRule,
  planIsUnclear: boolean,
): AdviceItem[] {
  const { levelBothSides, levelOneSide } = aisles
  const unclear = planIsUnclear ? 'No straight rows can be made out on the plan: leave' : 'Leave'
  return [
    {
      topic: 'aisles',
      code: 'row-clear-width',
      text:
        `${unclear} at least ${widthText(rows.leastClearMillimetres, units)} clear from the back of one row to the next` +
        ` for up to ${rows.bothEnds.seatsFree} seats with an aisle at both ends or ${rows.oneEnd.seatsFree} with one` +
        `, and ${widthText(rows.bothEnds.millimetresPerSeatBeyond, units)} or ${widthText(rows.oneEnd.millimetresPerSeatBeyond, units)}` +
        ` more for each seat beyond, up to ${widthText(rows.mostClearMillimetres, units)}.`,
      found: null,
      required: shownWidth(rows.leastClearMillimetres, units),
      unit: widthUnit(units),
      verdict: 'unknown',
      ...sourceOf(rows),
    },
    {
      topic: 'aisles',
      code: 'aisle-width',
      text:
        `Leave aisles of at least ${widthText(levelBothSides.millimetres, units)} with seats on both sides` +
        ` (${widthText(levelBothSides.millimetresSmall, units)} for up to ${levelBothSides.smallUpToSeats} seats)` +
        ` and ${widthText(levelOneSide.millimetres, units)} with seats on one side.`,
      found: null,
      required: shownWidth(levelBothSides.millimetres, units),
      unit: widthUnit(units),
      verdict: 'unknown',
      ...sourceOf(aisles),
    },
  ]
}

function surveyedAdvice(
  input: AdviceInput,
  tables: CodeTables,
  rows: RowRule,
  aisles: AisleRule,
  survey: RowSurvey,
): AdviceItem[] {
  const judgedWays = survey.ways.map((way) => judgedWay(tables, way))
  const judgedAisles = survey.aisles.map((aisle) => judgedAisle(tables, aisle))
  const longest = Math.max(...survey.rows.map((row) => row.seats))
  return [
    ...wayItem(input, rows, judgedWays),
    ...(longest > rows.seatsMost ? [longRowItem(rows, longest)] : []),
    ...aisleItem(input, aisles, judgedAisles),
  ]
}

/** Something measured against the least and the most that may be asked of it, as far as the plan tells. */
interface Judged<Subject> {
  readonly subject: Subject
  readonly foundMillimetres: number
  readonly leastMillimetres: number
  readonly mostMillimetres: number
  readonly verdict: AdviceVerdict
}

function judged<Subject>(
  subject: Subject,
  foundMillimetres: number,
  needs: readonly number[],
): Judged<Subject> {
  const [leastMillimetres, mostMillimetres] = [Math.min(...needs), Math.max(...needs)]
  const reaches = (needed: number) => Math.round(foundMillimetres) >= Math.round(needed)
  const verdict = reaches(mostMillimetres) ? 'ok' : reaches(leastMillimetres) ? 'unknown' : 'look'
  return { subject, foundMillimetres, leastMillimetres, mostMillimetres, verdict }
}

function judgedWay(tables: CodeTables, way: SurveyedWay): Judged<SurveyedWay> {
  const needs = way.rows.flatMap((row) =>
    aisleEndsPossible(row).map(
      (aisleEnds) => rowClearWidthNeededMillimetres(tables, { seats: row.seats, aisleEnds }) ?? 0,
    ),
  )
  return judged(way, way.clearMillimetres, needs)
}

/** A row without any aisle is judged as one with a single aisle: it is not made good by width anyway. */
function aisleEndsPossible({ leftEnd, rightEnd }: SurveyedRow): (1 | 2)[] {
  const ends = [leftEnd, rightEnd]
  if (ends.every((end) => end === 'aisle')) return [2]
  return ends.includes('no-aisle') ? [1] : [1, 2]
}

function judgedAisle(tables: CodeTables, aisle: SurveyedAisle): Judged<SurveyedAisle> {
  const needs = [aisle.seatsServedLeast, aisle.seatsServedMost].map(
    (seatsServed) =>
      aisleWidthNeededMillimetres(tables, { seatsServed, seatsOnBothSides: aisle.seatsOnBothSides }) ?? 0,
  )
  return judged(aisle, aisle.clearMillimetres, needs)
}

/** The one that speaks for all: what must be looked at first, then what cannot be told, each by what is missing. */
function worstOf<Subject>(all: readonly Judged<Subject>[]): Judged<Subject> | undefined {
  const order: readonly AdviceVerdict[] = ['look', 'unknown', 'ok']
  const spare = ({ foundMillimetres, mostMillimetres }: Judged<Subject>) => foundMillimetres - mostMillimetres
  return [...all].sort(
    (a, b) => order.indexOf(a.verdict) - order.indexOf(b.verdict) || spare(a) - spare(b),
  )[0]
}

function wayItem({ units }: AdviceInput, rows: RowRule, ways: readonly Judged<SurveyedWay>[]): AdviceItem[] {
  const worst = worstOf(ways)
  if (!worst) return []
  const seats = Math.max(...worst.subject.rows.map((row) => row.seats))
  const needed = worst.verdict === 'look' ? worst.leastMillimetres : worst.mostMillimetres
  const widths = comparedWidths(worst.foundMillimetres, needed, units)
  const between = `Between rows of ${countText(seats, 'seat', 'seats')} ${widths.foundText} are clear`
  const tooNarrow = ways.filter((way) => way.verdict === 'look').length
  const text = {
    ok: `${between}, ${widths.requiredText} are needed.`,
    look: `${between}, at least ${widths.requiredText} are needed (${numberText(tooNarrow)} of ${countText(ways.length, 'way', 'ways')} between rows too narrow).`,
    unknown: `${between}: from ${widthText(worst.leastMillimetres, units)} to ${widths.requiredText} are needed, by the aisles at their ends and the way they face.`,
  }[worst.verdict]
  return [
    {
      topic: 'aisles',
      code: 'row-clear-width',
      text,
      found: widths.found,
      required: widths.required,
      unit: widths.unit,
      verdict: worst.verdict,
      ...sourceOf(rows),
    },
  ]
}

function longRowItem(rows: RowRule, seats: number): AdviceItem {
  return {
    topic: 'aisles',
    code: 'row-too-long',
    text: `A row of ${countText(seats, 'seat', 'seats')} is too long: ${numberText(rows.seatsMost)} are the most, however wide the way.`,
    found: seats,
    required: rows.seatsMost,
    unit: 'seats',
    verdict: 'look',
    ...sourceOf(rows),
  }
}

function aisleItem(
  { units }: AdviceInput,
  rule: AisleRule,
  aisles: readonly Judged<SurveyedAisle>[],
): AdviceItem[] {
  const worst = worstOf(aisles)
  if (!worst) {
    return [
      {
        topic: 'aisles',
        code: 'aisle-width',
        text: `No aisle can be made out on the plan: leave at least ${widthText(rule.levelBothSides.millimetres, units)} with seats on both sides and ${widthText(rule.levelOneSide.millimetres, units)} with seats on one side.`,
        found: null,
        required: shownWidth(rule.levelOneSide.millimetres, units),
        unit: widthUnit(units),
        verdict: 'unknown',
        ...sourceOf(rule),
      },
    ]
  }
  const { seatsOnBothSides, seatsServedLeast, seatsServedMost } = worst.subject
  const needed = worst.verdict === 'look' ? worst.leastMillimetres : worst.mostMillimetres
  const widths = comparedWidths(worst.foundMillimetres, needed, units)
  const serves = worst.verdict === 'look' ? seatsServedLeast : seatsServedMost
  const aisle = `An aisle with seats on ${seatsOnBothSides ? 'both sides' : 'one side'} for ${worst.verdict === 'unknown' ? `${numberText(seatsServedLeast)} to ` : ''}${countText(serves, 'seat', 'seats')} is ${widths.foundText} wide`
  const text = {
    ok: `${aisle}, ${widths.requiredText} are needed.`,
    look: `${aisle}, at least ${widths.requiredText} are needed.`,
    unknown: `${aisle}: ${widths.requiredText} are needed unless few use it.`,
  }[worst.verdict]
  return [
    {
      topic: 'aisles',
      code: 'aisle-width',
      text,
      found: widths.found,
      required: widths.required,
      unit: widths.unit,
      verdict: worst.verdict,
      ...sourceOf(rule),
    },
  ]
}

function joinedAdvice(tables: CodeTables, chairs: number): AdviceItem[] {
  const atLeast = chairsJoinedAtLeast(tables, chairs)
  if (atLeast === null || atLeast <= 1 || !tables.looseChairs) return []
  return [
    {
      topic: 'aisles',
      code: 'chairs-joined',
      text: `More than ${numberText(tables.looseChairs.chairsFree)} loose chairs: join the ${numberText(chairs)} chairs in groups of at least ${numberText(atLeast)}.`,
      found: null,
      required: atLeast,
      unit: 'chairs',
      verdict: 'unknown',
      ...sourceOf(tables.looseChairs),
    },
  ]
}
