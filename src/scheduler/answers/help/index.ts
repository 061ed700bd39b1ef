/** Everything that might help; what gains the same stands in this order. */
import type { Candidate, HelpAsked } from './candidate.ts'
import { moreHandsHelp } from './more-hands.ts'
import { oneMoreThingHelp } from './one-more-thing.ts'
import { oneMoreWithSkillHelp } from './one-more-with-skill.ts'
import { otherLayoutHelp } from './other-layout.ts'
import { ownStrikeHelp } from './own-strike.ts'
import { parkedInsteadHelp } from './parked-instead.ts'
import { stagedAtDoorHelp } from './staged-at-door.ts'
import { withoutOptionalHelp } from './without-optional.ts'

const kinds = [
  moreHandsHelp,
  oneMoreThingHelp,
  oneMoreWithSkillHelp,
  stagedAtDoorHelp,
  ownStrikeHelp,
  parkedInsteadHelp,
  otherLayoutHelp,
  withoutOptionalHelp,
]

export type { HelpAsked } from './candidate.ts'
export const candidates = (asked: HelpAsked): Candidate[] => kinds.flatMap((kind) => kind(asked))
