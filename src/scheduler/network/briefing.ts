/** The first minutes of a turn with volunteers: who does what, in which order, and what nobody may do. */
import type { Task } from '../../domain/task.ts'
import { DEFAULT_POLICY_NUMBERS } from './default-policy-numbers.ts'
import { fixedTask } from './fixed-task.ts'
import type { TurnOutline } from './outline.ts'
import { givenNumber, policyNumber } from './reckoned-numbers.ts'
import { EXITS_CLEAR, QUALIFIED_ONLY } from './safety-notes.ts'
import { briefingText } from './task-catalogue/room-texts.ts'

/**
 * One person leads it and everybody listens: a task cannot hold however many hands there will be, so it holds the
 * lead's and everything else waits for it. None where the policy has no time for it, and none where the layout
 * stays as it is and only the floor is cleaned: there is nothing to share out.
 */
export function briefingTasks(outline: TurnOutline): Task[] {
  const { input } = outline
  const seconds = input.policy.briefingSeconds
  if (seconds === 0 || (outline.staysAsItIs && !hasMoreThanCleaning(outline))) return []
  return [
    fixedTask(outline, {
      key: 'briefing',
      kind: 'briefing',
      text: briefingText(input),
      place: input.room.name,
      modes: [{ hands: 1, seconds }],
      // Who says what nobody may do answers for it. Common practice, no source.
      adultsOnly: true,
      after: [],
      safetyNotes: [QUALIFIED_ONLY, EXITS_CLEAR],
      reckon: () => ({
        what: 'briefing',
        seconds: policyNumber('briefing', seconds, 'seconds', DEFAULT_POLICY_NUMBERS.briefingSeconds),
        hands: givenNumber('people', 1, 'hands', 'The lead talks, everybody listens'),
      }),
    }),
  ]
}

/** Cloths and settings to replace, or tables to wipe. */
const hasMoreThanCleaning = ({ jobs }: TurnOutline): boolean =>
  jobs.strike.length > 0 || jobs.set.length > 0 || jobs.tablesToWipe.some((tables) => tables > 0)
