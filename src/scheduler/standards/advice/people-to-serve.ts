/** For how many people exits and crowd managers are judged, and why for so many. */
import type { SourcedFigure } from '../occupancy/sourced.ts'
import { type AdviceInput, peopleExpected, tablesOf } from './advice-input.ts'
import { type AdviceItem, sourcesOf } from './advice-item.ts'
import { type LayoutLoads, loadText } from './layout-loads.ts'
import { numberText, peopleText } from './measure-text.ts'

export interface PeopleToServe {
  readonly people: number
  /** As a sentence says it: `the load of this layout`. */
  readonly basis: string
  /** The published figures behind the number; none where it was entered. */
  readonly figures: readonly Omit<SourcedFigure, 'value'>[]
}

/**
 * The greatest of the load that the floor gives, the people expected, the chairs that stand in it, and the limit that
 * somebody posted, for so many may then be there. 0 where none of them says anybody.
 */
export function peopleToServe(input: AdviceInput, { toDesignFor }: LayoutLoads): PeopleToServe {
  const candidates: PeopleToServe[] = [
    { people: toDesignFor.peopleToDesignFor, basis: 'the load of this layout', figures: toDesignFor.parts },
    { people: peopleExpected(input) ?? 0, basis: 'as many as are expected', figures: [] },
    {
      people: input.occupantLimitPosted ?? 0,
      basis: `the ${tablesOf(input).occupantLimit.name}`,
      figures: [],
    },
    { people: input.chairSeats, basis: 'as many as there are chairs', figures: [] },
  ]
  return candidates.reduce((most, one) => (one.people > most.people ? one : most))
}

/** @returns one item with the topic `exits`: the number itself, and those that it was chosen from */
export function peopleToServeAdvice(
  input: AdviceInput,
  loads: LayoutLoads,
  { people, basis, figures }: PeopleToServe,
): AdviceItem {
  const { toDesignFor } = loads
  const { name } = tablesOf(input).occupantLimit
  const rows = loadText(toDesignFor, input, 'peopleToDesignFor', false)
  const expected = peopleExpected(input)
  const isLoad = figures.length > 0
  const others = [
    ...(isLoad ? [] : [`the load of this layout is ${numberText(toDesignFor.peopleToDesignFor)} (${rows})`]),
    ...(expected === null || expected === people
      ? []
      : [`${numberText(expected)} ${expected === 1 ? 'is' : 'are'} expected`]),
    ...(input.occupantLimitPosted === null || input.occupantLimitPosted === people
      ? []
      : [`the ${name} is ${numberText(input.occupantLimitPosted)}`]),
  ]
  const chosen = `Exits are judged for ${peopleText(people)}, ${basis}${isLoad ? ` (${rows})` : ''}`
  return {
    topic: 'exits',
    code: 'exits-people',
    text: `${[chosen, ...others].join('; ')}.`,
    found: people,
    required: people,
    unit: 'people',
    verdict: 'ok',
    ...sourcesOf(toDesignFor.parts),
  }
}
