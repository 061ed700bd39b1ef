/** Advice on the exits of a room: how many, how wide, how far apart, how their doors open. */
import type { FloorPoint } from '../../../domain/floor.ts'
import { listText } from '../../wording/list-text.ts'
import type { CodeTables } from '../occupancy/code-tables.ts'
import {
  exitWidthNeededMillimetres,
  leastWidthMillimetres,
  widthOfEachExitMillimetres,
} from '../occupancy/exit-width.ts'
import {
  exitCountRow,
  exitsApart,
  exitsNeeded,
  outwardSwingNeeded,
  panicHardwareNeeded,
} from '../occupancy/exits.ts'
import type { SourcedFigure } from '../occupancy/sourced.ts'
import { travelDistance } from '../occupancy/travel-distance.ts'
import { type AdviceExit, type AdviceInput, tablesOf } from './advice-input.ts'
import { type AdviceItem, type AdviceVerdict, sourceOf, sourcesOf } from './advice-item.ts'
import { maySitInRows } from './layout-loads.ts'
import {
  comparedWidths,
  countText,
  distanceText,
  distanceUnit,
  numberText,
  peopleText,
  shownDistance,
  shownWidth,
  widthText,
  widthUnit,
} from './measure-text.ts'
import { peopleServedAdvice } from './people-served-advice.ts'
import type { PeopleToServe } from './people-to-serve.ts'

/**
 * @param toServe  the people that the exits must serve; for nobody there is no advice
 * @returns items with the topic `exits`
 */
export function exitsAdvice(input: AdviceInput, toServe: PeopleToServe): AdviceItem[] {
  const { people } = toServe
  if (people === 0) return []
  const tables = tablesOf(input)
  const least = leastWidthMillimetres(tables.exitWidth.level, people)
  // To the millimetre, as widths are compared everywhere in advice: a door of 32 in entered as 813 mm, or 812, counts.
  const isWideEnough = (exit: AdviceExit) => Math.round(exit.clearWidthMillimetres) >= Math.round(least)
  const exits = input.exits
    .filter(isWideEnough)
    .map((exit) => ({ ...exit, clearWidthMillimetres: Math.max(exit.clearWidthMillimetres, least) }))
  return [
    numberAdvice(input, tables, toServe, exits.length),
    ...narrowAdvice(
      input,
      tables,
      least,
      input.exits.filter((exit) => !isWideEnough(exit)),
    ),
    ...widthAdvice(input, tables, toServe, exits),
    ...apartAdvice(input, tables, people, exits),
    ...doorAdvice(input, tables, people),
    ...travelAdvice(input, tables, people),
  ]
}

function numberAdvice(
  input: AdviceInput,
  tables: CodeTables,
  { people, figures }: PeopleToServe,
  found: number,
): AdviceItem {
  const needed = exitsNeeded(tables, people)
  const needs = `${peopleText(people)} need ${countText(needed, 'exit', 'exits')}`
  const unknown = input.exits.length === 0
  return {
    topic: 'exits',
    code: 'exits-number',
    text: unknown
      ? `${needs}; none has been entered.`
      : `${needs}; ${numberText(found)} ${found === 1 ? 'is' : 'are'} wide enough to count.`,
    found: unknown ? null : found,
    required: needed,
    unit: 'exits',
    verdict: unknown ? 'unknown' : found >= needed ? 'ok' : 'look',
    ...sourcesOf([exitCountRow(tables, people), ...figures]),
  }
}

function narrowAdvice(
  { units }: AdviceInput,
  tables: CodeTables,
  least: number,
  narrow: readonly AdviceExit[],
): AdviceItem[] {
  if (narrow.length === 0) return []
  const narrowest = Math.min(...narrow.map((exit) => exit.clearWidthMillimetres))
  const widths = comparedWidths(narrowest, least, units)
  return [
    {
      topic: 'exits',
      code: 'exit-too-narrow',
      text: `An exit under ${widths.requiredText} clear does not count: ${listText(narrow.map((exit) => exit.name))} (the narrowest ${widths.foundText}).`,
      found: widths.found,
      required: widths.required,
      unit: widths.unit,
      verdict: 'look',
      ...sourceOf(tables.exitWidth.level),
    },
  ]
}

function widthAdvice(
  input: AdviceInput,
  tables: CodeTables,
  toServe: PeopleToServe,
  exits: readonly AdviceExit[],
): AdviceItem[] {
  const { units, sprinklersAndVoiceAlarm } = input
  const { people, figures } = toServe
  const rule = tables.exitWidth.level
  const way = { people, component: 'level', sprinklersAndVoiceAlarm } as const
  if (exits.length === 0) {
    const count = exitsNeeded(tables, people)
    const each = widthOfEachExitMillimetres(tables, { ...way, exits: count })
    return [
      {
        topic: 'exits',
        code: 'exit-width',
        text: `For ${peopleText(people)}, ${countText(count, 'exit', 'exits')} must be at least ${widthText(each, units)} clear${count > 1 ? ' each' : ''}.`,
        found: null,
        required: shownWidth(each, units),
        unit: widthUnit(units),
        verdict: 'unknown',
        ...sourcesOf([
          rule,
          ...(count > 1 ? [tables.lostExit] : []),
          exitCountRow(tables, people),
          ...figures,
        ]),
      },
    ]
  }
  const items: AdviceItem[] = []
  const inAll = exits.reduce((sum, exit) => sum + exit.clearWidthMillimetres, 0)
  const left = inAll - Math.max(...exits.map((exit) => exit.clearWidthMillimetres))
  if (rule.kind === 'per-person') {
    const needed = exitWidthNeededMillimetres(tables, way)
    const whole = comparedWidths(inAll, needed, units)
    items.push({
      topic: 'exits',
      code: 'exit-width',
      text: `${peopleText(people)} need ${whole.requiredText} of clear exit width in all; there are ${whole.foundText}.`,
      found: whole.found,
      required: whole.required,
      unit: whole.unit,
      verdict: whole.isEnough ? 'ok' : 'look',
      ...sourcesOf([rule, ...figures]),
    })
    if (exits.length > 1) {
      const remaining = comparedWidths(left, needed * tables.lostExit.share, units)
      items.push({
        topic: 'exits',
        code: 'exit-lost',
        text: `If the widest exit is lost, ${remaining.foundText} of clear width remain; ${remaining.requiredText} are needed.`,
        found: remaining.found,
        required: remaining.required,
        unit: remaining.unit,
        verdict: remaining.isEnough ? 'ok' : 'look',
        ...sourcesOf([tables.lostExit, rule, ...figures]),
      })
    }
  }
  items.push(peopleServedAdvice(input, tables, toServe, exits))
  return items
}

function apartAdvice(
  input: AdviceInput,
  tables: CodeTables,
  people: number,
  exits: readonly AdviceExit[],
): AdviceItem[] {
  const rule = tables.exitSeparation
  if (!rule || exitsNeeded(tables, people) < 2) return []
  const { units, roomDiagonalMetres, sprinklersAndVoiceAlarm: sprinklered } = input
  const share = sprinklered ? 'a third' : 'half'
  const item = { topic: 'exits', code: 'exits-apart', unit: distanceUnit(units), ...sourceOf(rule) } as const
  if (roomDiagonalMetres === null) {
    return [
      {
        ...item,
        text: `Two of the exits must be at least ${share} of the longest diagonal of the room apart.`,
        found: null,
        required: null,
        verdict: 'unknown',
      },
    ]
  }
  const neededMetres =
    roomDiagonalMetres * (sprinklered ? rule.shareOfDiagonalSprinklered : rule.shareOfDiagonal)
  const needs = `Two of the exits must be at least ${distanceText(neededMetres, units)} apart, ${share} of the longest diagonal of the room`
  const placed = exits.flatMap(pointOf)
  const apart = exitsApart(tables, { exits: placed, roomDiagonalMetres, sprinklered })
  const required = shownDistance(neededMetres, units)
  if (!apart)
    return [
      { ...item, text: `${needs}; where they are is not known.`, found: null, required, verdict: 'unknown' },
    ]
  const verdict: AdviceVerdict = apart.areFarEnough ? 'ok' : placed.length < exits.length ? 'unknown' : 'look'
  return [
    {
      ...item,
      text: `${needs}; the two farthest apart are ${distanceText(apart.farthestMetres, units)}${verdict === 'unknown' ? ', not counting those whose place is not known' : ''}.`,
      found: shownDistance(apart.farthestMetres, units),
      required,
      verdict,
    },
  ]
}

function pointOf({ xMetres, yMetres }: AdviceExit): FloorPoint[] {
  return xMetres === undefined || yMetres === undefined ? [] : [{ xMetres, yMetres }]
}

function doorAdvice(input: AdviceInput, tables: CodeTables, people: number): AdviceItem[] {
  const { outwardSwingFromPeople: swing, panicHardwareFromPeople: panic } = tables
  const items: AdviceItem[] = []
  if (swing && outwardSwingNeeded(tables, people)) {
    const mustDo = 'exit doors must open outward'
    items.push(doorItem('exit-doors-swing', mustDo, swing, input.exits, (exit) => exit.opensOutward))
  }
  if (panic && panicHardwareNeeded(tables, people)) {
    const mustDo = 'exit doors that latch must have panic hardware'
    items.push(doorItem('panic-hardware', mustDo, panic, input.exits, (exit) => exit.panicHardware ?? null))
  }
  return items
}

function doorItem(
  code: string,
  mustDo: string,
  rule: SourcedFigure,
  exits: readonly AdviceExit[],
  doesSo: (exit: AdviceExit) => boolean | null,
): AdviceItem {
  const names = (value: boolean | null) =>
    exits.filter((exit) => doesSo(exit) === value).map(({ name }) => name)
  const [right, wrong, unknown] = [names(true), names(false), names(null)]
  const must = `From ${peopleText(rule.value)} on, ${mustDo}`
  const saidOfThem =
    wrong.length > 0
      ? `; not so: ${listText(wrong)}`
      : unknown.length > 0
        ? `; not known: ${listText(unknown)}`
        : exits.length > 0
          ? '; all of them do'
          : ''
  return {
    topic: 'exits',
    code,
    text: `${must}${saidOfThem}.`,
    found: exits.length === 0 || (wrong.length === 0 && unknown.length > 0) ? null : right.length,
    required: exits.length === 0 ? null : exits.length,
    unit: 'exits',
    verdict: wrong.length > 0 ? 'look' : exits.length === 0 || unknown.length > 0 ? 'unknown' : 'ok',
    ...sourceOf(rule),
  }
}

function travelAdvice(input: AdviceInput, tables: CodeTables, people: number): AdviceItem[] {
  const rule = travelDistance(tables, { people, seatedInRows: maySitInRows(input) })
  const { units } = input
  const withChoice =
    rule.withChoiceMetres === null
      ? ''
      : `, and within ${distanceText(rule.withChoiceMetres, units)} at an exit`
  const oneWay = distanceText(rule.oneWayMetres, units)
  return [
    {
      topic: 'exits',
      code: 'one-way-travel',
      text:
        exitsNeeded(tables, people) < 2 && input.exits.length < 2
          ? `With one exit, no place should be farther than ${oneWay} from it.`
          : `From every place people should have a choice of two ways out within ${oneWay}${withChoice}.`,
      found: null,
      required: shownDistance(rule.oneWayMetres, units),
      unit: distanceUnit(units),
      verdict: 'unknown',
      ...sourceOf(rule),
    },
  ]
}
