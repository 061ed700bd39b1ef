/** The usual cautions of the trade, printed with the task they belong to. Common practice, no source. */
import type { FurnishingKind } from '../../domain/furnishing.ts'

export const LOOK_AT_THE_PATH = 'Look at the whole path before you push a trolley.'
export const WET_FLOOR = 'Put up wet-floor signs and leave them until the floor is dry.'
export const EXITS_CLEAR = 'Keep every exit, aisle and fire-alarm pull station clear.'
export const QUALIFIED_ONLY =
  'Leave ladders, anything hung overhead and mains electrics to qualified people. When in doubt, stop and ask.'
export const MAKERS_INSTRUCTIONS = "Follow the maker's instructions."
export const LIMIT_DECIDES =
  'The posted occupant limit and the local fire and building code decide, not this list.'

const handlingNotes: Record<FurnishingKind, readonly string[]> = {
  'stacking-chair': ['Stack no higher than the maker allows, and never where children play.'],
  'folding-chair': [
    'Keep fingers out of the hinges.',
    'Stack no higher than the maker allows, and never where children play.',
  ],
  'round-table': ['Two people to a table, always for one of 72 in. Legs locked before letting go.'],
  'long-table': ['Two people to an 8-ft table. Legs locked before letting go.'],
  'stage-deck': [
    'Two people to every deck, adults only.',
    'Legs pinned and rails on before anybody steps up.',
    MAKERS_INSTRUCTIONS,
  ],
  'post-pair': [
    'Two people to a pair of posts. Never let a post fall or lean unattended.',
    MAKERS_INSTRUCTIONS,
  ],
  'games-table': ['Two people to a table. Catches locked before letting go.', MAKERS_INSTRUCTIONS],
  'table-cloth': [],
  other: ['Lift with somebody else what you would not lift twice alone.'],
}

/** For handling pieces of a kind, with what the way to the store adds. */
export function pieceNotes(kind: FurnishingKind, byTrolley: boolean): string[] {
  return byTrolley ? [...handlingNotes[kind], LOOK_AT_THE_PATH] : [...handlingNotes[kind]]
}

/** Building a stage is left to adults. */
export const isForAdultsOnly = (kind: FurnishingKind): boolean => kind === 'stage-deck'
