/** One or two more pairs of hands, adults without special skills, there whenever the crew is. */
import type { Candidate, HelpAsked } from './candidate.ts'

const WORDS = ['One more pair of hands', 'Two more pairs of hands'] as const

export const moreHandsHelp = ({ readyAtWith }: HelpAsked): Candidate[] =>
  WORDS.map((what, index) => ({
    change: { kind: 'hands', hands: index + 1 },
    what,
    isNeverLater: true,
    readyAt: () => readyAtWith.get(index + 1) ?? null,
  }))
