/** Advice on how many people the exits serve, told with the one rule that decides it. */
import type { CodeTables } from '../occupancy/code-tables.ts'
import { type PeopleServed, peopleExitsServe } from '../occupancy/exit-width.ts'
import { lastRowServed } from '../occupancy/exits.ts'
import type { AdviceExit, AdviceInput } from './advice-input.ts'
import { type AdviceItem, sourcesOf } from './advice-item.ts'
import { numberText, peopleText } from './measure-text.ts'
import type { PeopleToServe } from './people-to-serve.ts'

/**
 * @param exits  one or more, all wide enough to count
 * @returns one item with the topic `exits`
 */
export function peopleServedAdvice(
  { sprinklersAndVoiceAlarm }: AdviceInput,
  tables: CodeTables,
  { people, figures }: PeopleToServe,
  exits: readonly AdviceExit[],
): AdviceItem {
  const served = peopleExitsServe(tables, { exits, sprinklersAndVoiceAlarm })
  return {
    topic: 'exits',
    code: 'people-exits-serve',
    text: `${servedText(tables, served)}; they must serve ${numberText(people)}.`,
    found: served.people,
    required: people,
    unit: 'people',
    verdict: served.people >= people ? 'ok' : 'look',
    ...sourcesOf([
      tables.exitWidth.level,
      ...(exits.length > 1 ? [tables.lostExit] : []),
      ...[lastRowServed(tables, exits.length) ?? []].flat(),
      ...figures,
    ]),
  }
}

/** Only what the rule that decides lets say: the people together are not those who can still get out when one exit is lost. */
function servedText({ lostExit }: CodeTables, served: PeopleServed): string {
  const people = peopleText(served.people)
  if (served.decidedBy === 'width-together') {
    return served.exitsThatCount === 1
      ? `By its width this exit serves ${people}`
      : `By their width together these exits serve ${people}`
  }
  if (served.decidedBy === 'number-of-exits') {
    const exits =
      served.exitsThatCount === 1 ? 'One exit serves' : `${numberText(served.exitsThatCount)} exits serve`
    return `${exits} at most ${people}, however wide`
  }
  if (lostExit.kind === 'widest-left-out')
    return `Without the widest, which is left out, these exits serve ${people}`
  const share = lostExit.share === 0.5 ? 'half' : `${numberText(lostExit.share * 100)} %`
  return `If the widest is lost, ${share} of the width needed must remain: so these exits serve ${people}`
}
