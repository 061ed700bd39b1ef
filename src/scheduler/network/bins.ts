/** Emptying and relining bins after guests. */
import type { Task, TaskKey } from '../../domain/task.ts'
import { counted } from '../wording/counted.ts'
import { DEFAULT_POLICY_NUMBERS } from './default-policy-numbers.ts'
import type { TurnOutline } from './outline.ts'
import { computedNumber, singleRate, term } from './reckoned-numbers.ts'
import { GLOVES_FOR_BINS } from './safety-notes.ts'
import { binsText } from './task-catalogue/room-texts.ts'
import { handsOnPieces } from './work-content.ts'
import { workTask } from './work-task.ts'

/**
 * By the guests there were and the policy, rounded up; none where nobody was there. They can wait unless food was
 * served: common practice, no source.
 */
export function binsTasks(outline: TurnOutline, after: readonly TaskKey[]): Task[] {
  const { input } = outline
  const guests = input.outgoing?.headcount ?? 0
  const perHundred = input.policy.binsPerHundredGuests
  const bins = Math.ceil((guests * perHundred) / 100)
  if (bins === 0) return []
  return [
    workTask(outline, {
      key: 'bins',
      kind: 'bins',
      zone: null,
      count: bins,
      furnishingId: null,
      fromPlace: input.room.name,
      toPlace: 'waste point',
      practisedPersonSeconds: bins * input.rates.binPersonSeconds,
      hands: handsOnPieces(1, bins),
      text: (modes) => binsText(input, bins, modes),
      terms: () => [
        term('bins', [
          computedNumber(
            'bins',
            bins,
            'bins',
            `${counted(guests, 'guest')}, ${counted(perHundred, 'bin')} for each hundred ${perHundred === DEFAULT_POLICY_NUMBERS.binsPerHundredGuests ? 'by default' : 'by the policy of the site'}, rounded up`,
          ),
          singleRate(input, 'emptying and relining one', 'person-seconds per piece', 'binPersonSeconds'),
        ]),
      ],
      adultsOnly: false,
      uses: [],
      after,
      safetyNotes: [GLOVES_FOR_BINS],
      optional: !input.outgoing?.foodServed,
    }),
  ]
}
