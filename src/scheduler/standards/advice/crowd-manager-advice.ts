/** Advice on trained crowd managers. */
import type { CrowdManagerRule } from '../occupancy/crowd-manager-rules.ts'
import { crowdManagersNeeded } from '../occupancy/crowd-managers.ts'
import { type AdviceInput, peopleExpected, tablesOf } from './advice-input.ts'
import { type AdviceItem, sourcesOf } from './advice-item.ts'
import { countText, numberText, peopleText } from './measure-text.ts'
import type { PeopleToServe } from './people-to-serve.ts'

/**
 * For the same people as the exits. Codes differ by far in where they begin, and which one is adopted is not known: where
 * the one of the tables asks for nobody, what the others ask is told and the verdict is `unknown`.
 * @returns one item, or none where the tables have no rule
 */
export function crowdManagerAdvice(input: AdviceInput, { people, basis }: PeopleToServe): AdviceItem[] {
  const { crowdManagers: rule, crowdManagersElsewhere: elsewhere } = tablesOf(input)
  if (!rule) return []
  const worshipOnly = input.worshipOnly ?? false
  const needed = (by: CrowdManagerRule, of: number) => crowdManagersNeeded(by, { people: of, worshipOnly })
  const managers = needed(rule, people)
  const others = managers === 0 && people > 0 ? elsewhere : []
  const told = others.map(
    (other) => `; ${other.code} asks for ${numberOrNone(needed(other, people))} (${asked(other)})`,
  )
  const expected = peopleExpected(input)
  const forExpected = expected === null ? managers : needed(rule, expected)
  const fewer = forExpected === managers ? '' : `, ${numberOrNone(forExpected)} for the ${expected} expected`
  const whose = `For ${peopleText(people)}${people > 0 ? `, ${basis},` : ''} ${rule.code} asks for`
  return [
    {
      topic: 'occupancy',
      code: 'crowd-managers',
      text:
        managers === 0
          ? `${whose} no trained crowd manager${told.join('')}${others.length > 0 ? '; ask which code holds here' : ''}.`
          : `${whose} ${countText(managers, 'trained crowd manager', 'trained crowd managers')} on duty${fewer}.`,
      found: null,
      required: managers,
      unit: 'crowd managers',
      verdict: people === 0 ? 'ok' : 'unknown',
      ...sourcesOf([rule, ...others]),
    },
  ]
}

const numberOrNone = (managers: number): string => (managers === 0 ? 'none' : numberText(managers))

function asked({ noneUpToPeople, managersLeast, peopleEach }: CrowdManagerRule): string {
  const from = noneUpToPeople === 0 ? 'in any assembly room' : `above ${peopleText(noneUpToPeople)}`
  return `at least ${numberText(managersLeast)} ${from}, 1 for each ${numberText(peopleEach)}`
}
