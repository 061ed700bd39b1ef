/** Advice on trained crowd managers. */
import { crowdManagersNeeded } from '../occupancy/crowd-managers.ts'
import { type AdviceInput, tablesOf } from './advice-input.ts'
import { type AdviceItem, sourceOf } from './advice-item.ts'
import { countText, peopleText } from './measure-text.ts'

/** @returns one item, or none where the tables have no rule */
export function crowdManagerAdvice(input: AdviceInput, people: number): AdviceItem[] {
  const rule = tablesOf(input).crowdManagers
  if (!rule) return []
  const needed = crowdManagersNeeded(rule, { people, worshipOnly: input.worshipOnly ?? false })
  return [
    {
      topic: 'occupancy',
      code: 'crowd-managers',
      text:
        needed === 0
          ? `${peopleText(people)}: no trained crowd manager is asked for by the rule set here.`
          : `${peopleText(people)}: have ${countText(needed, 'trained crowd manager', 'trained crowd managers')} on duty.`,
      found: null,
      required: needed,
      unit: 'crowd managers',
      verdict: needed === 0 ? 'ok' : 'unknown',
      ...sourceOf(rule),
    },
  ]
}
