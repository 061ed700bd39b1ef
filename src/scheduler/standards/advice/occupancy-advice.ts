/** Advice on how many people a layout may hold, how they get out, and the ways between rows and tables. */
import { occupantLoad } from '../occupancy/occupant-load.ts'
import { type AdviceInput, checkAdviceInput, peopleExpected, tablesOf } from './advice-input.ts'
import { type AdviceItem, sourceOf } from './advice-item.ts'
import { crowdManagerAdvice } from './crowd-manager-advice.ts'
import { exitsAdvice } from './exits-advice.ts'
import { areaText, numberText, peopleText } from './measure-text.ts'
import { rowsAdvice } from './rows-advice.ts'
import { tablesAdvice } from './tables-advice.ts'

/**
 * Occupancy, exits and aisles of a layout, in that order; never empty. Show `ADVICE_CAUTION` with it. Advice is not a
 * verdict on a booking: it says `look` only where the plan shows something, and `unknown` where it cannot be told.
 * @throws RangeError naming the field that cannot be
 */
export function occupancyAdvice(input: AdviceInput): AdviceItem[] {
  checkAdviceInput(input)
  const tables = tablesOf(input)
  const load = occupantLoad({
    tables,
    parts: [{ use: tables.useOfLayout[input.layoutKind].use, areaSquareMetres: input.netAreaSquareMetres }],
  })
  const expected = peopleExpected(input)
  const planned = Math.min(load.peopleToDesignFor, input.occupantLimitPosted ?? Number.MAX_SAFE_INTEGER)
  return [
    loadAdvice(input, load.peopleToPromise),
    ...postedLimitAdvice(input, load.peopleToPromise),
    ...exitsAdvice(input, Math.max(expected ?? 0, planned)),
    ...crowdManagerAdvice(input, expected ?? Math.min(planned, load.peopleToPromise)),
    ...rowsAdvice(input),
    ...tablesAdvice(input),
  ]
}

function loadAdvice(input: AdviceInput, peopleToPromise: number): AdviceItem {
  const tables = tablesOf(input)
  const factor = tables.loadFactors[tables.useOfLayout[input.layoutKind].use]!
  const expected = peopleExpected(input)
  const holds =
    `${areaText(input.netAreaSquareMetres, input.units)} of floor hold ${numberText(peopleToPromise)} ${factor.people}` +
    ` at ${areaText(factor.squareMetresPerPerson, input.units)} a person` +
    (factor.basis === 'gross' ? ', a figure for the whole floor with closets and ways' : '')
  const tooMany = expected !== null && expected > peopleToPromise
  return {
    topic: 'occupancy',
    code: 'occupant-load',
    text:
      expected === null
        ? `${holds}.`
        : `${holds}; ${numberText(expected)} ${expected === 1 ? 'is' : 'are'} expected${tooMany ? ', which is too many' : ''}.`,
    found: expected,
    required: peopleToPromise,
    unit: 'people',
    verdict: expected === null ? 'unknown' : tooMany ? 'look' : 'ok',
    ...sourceOf(factor),
  }
}

const POSTED_LIMIT = {
  source: 'the posted limit; IBC 1004.9 asks for one in every assembly room',
  status: 'from memory',
}

function postedLimitAdvice(input: AdviceInput, peopleToPromise: number): AdviceItem[] {
  const posted = input.occupantLimitPosted
  const expected = peopleExpected(input)
  const item = { topic: 'occupancy', unit: 'people', ...POSTED_LIMIT } as const
  if (posted === null) {
    return [
      {
        ...item,
        code: 'posted-limit',
        text: `No occupant limit has been entered: enter the one posted in the room; by its floor this layout holds ${peopleText(peopleToPromise)}.`,
        found: expected,
        required: null,
        verdict: 'unknown',
      },
    ]
  }
  const tooMany = expected !== null && expected > posted
  const items: AdviceItem[] = [
    {
      ...item,
      code: 'posted-limit',
      text:
        expected === null
          ? `The posted limit is ${peopleText(posted)}.`
          : `The posted limit is ${peopleText(posted)}; ${numberText(expected)} ${expected === 1 ? 'is' : 'are'} expected${tooMany ? ', which is too many' : ''}.`,
      found: expected,
      required: posted,
      verdict: expected === null ? 'unknown' : tooMany ? 'look' : 'ok',
    },
  ]
  if (posted > peopleToPromise) {
    items.push({
      ...item,
      code: 'posted-limit-above-load',
      text: `The posted limit of ${peopleText(posted)} is more than the ${numberText(peopleToPromise)} this layout holds by its floor: ask which use the limit was set for.`,
      found: posted,
      required: peopleToPromise,
      verdict: 'look',
    })
  }
  return items
}
