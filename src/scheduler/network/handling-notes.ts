/** The usual cautions for handling pieces of a kind. Common practice, no source. */
import type { Furnishing, FurnishingKind } from '../../domain/furnishing.ts'

export const MAKERS_INSTRUCTIONS = "Follow the maker's instructions."
const BROKEN_GLASS = 'Broken glass goes in a box, never in a bag.'

const STACK_NOTE = 'Stack no higher than the maker allows, and never where children play.'
const STAGE_NOTES = ['Legs pinned and rails on before anybody steps up.', MAKERS_INSTRUCTIONS]
const AT_LEAST_TWO = 'At least two people, whatever the list says.'

const kindNotes: Readonly<Record<FurnishingKind, readonly string[]>> = {
  'stacking-chair': [STACK_NOTE],
  'folding-chair': ['Keep fingers out of the hinges.', STACK_NOTE],
  'round-table': ['Legs locked before letting go.'],
  'long-table': ['Legs locked before letting go.'],
  'stage-deck': STAGE_NOTES,
  'post-pair': ['Never let a post fall or lean unattended.', MAKERS_INSTRUCTIONS],
  'games-table': ['Catches locked before letting go.', MAKERS_INSTRUCTIONS],
  'table-cloth': [],
  'place-setting': [BROKEN_GLASS],
  'stage-rail': STAGE_NOTES,
  'dance-floor-panel': ['Keep fingers out of the joints. No edge left that anybody can trip over.'],
  other: ['Lift with somebody else what you would not lift twice alone.'],
}

/** Of kinds that a team handles: what it is a team to. */
const teamTo: Readonly<Partial<Record<FurnishingKind, string>>> = {
  'round-table': 'a table',
  'long-table': 'a table',
  'stage-deck': 'every deck',
  'post-pair': 'a pair of posts',
  'games-table': 'a table',
  'stage-rail': 'every rail',
}

/** Kinds that nobody handles alone, by usual practice, whatever the site has entered. */
const neverAlone: ReadonlySet<FurnishingKind> = new Set([
  'round-table',
  'long-table',
  'stage-deck',
  'post-pair',
  'stage-rail',
])

const NUMBERS = ['No', 'One', 'Two', 'Three', 'Four', 'Five', 'Six', 'Seven', 'Eight']

/** Never other people to a piece than the task is for; where that is one too few, it says so. */
export function handlingNotes({ kind, handsPerPiece }: Furnishing, adultsOnly: boolean): string[] {
  return [...teamNotes(kind, handsPerPiece, adultsOnly), ...kindNotes[kind]]
}

function teamNotes(kind: FurnishingKind, handsPerPiece: number, adultsOnly: boolean): string[] {
  if (handsPerPiece < 2) return neverAlone.has(kind) ? [AT_LEAST_TWO] : []
  const to = teamTo[kind]
  if (to === undefined) return []
  const who = kind === 'stage-deck' && adultsOnly ? ', adults only' : ''
  return [`${NUMBERS[handsPerPiece] ?? handsPerPiece} people to ${to}${who}.`]
}
