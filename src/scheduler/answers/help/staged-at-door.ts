/** What has to be fetched stands at the door of the room already: brought there before, while nobody was in the way. */
import { listText } from '../../wording/list-text.ts'
import { circumstancesOf } from '../circumstances.ts'
import { readyAtIn } from '../ready.ts'
import { beginning, type Candidate, type HelpAsked } from './candidate.ts'
import { keptNearby, piecesOneWay } from './kept-nearby.ts'

/**
 * The way is saved, and moving what stands in front in the store; loading and unloading is not. The work of bringing
 * them there is outside the turn. Pieces of the same kind that stand in the way meanwhile may wait there too.
 */
export function stagedAtDoorHelp({ snapshot, turn, circumstances, search }: HelpAsked): Candidate[] {
  const { input } = circumstances.part
  const fetched = piecesOneWay(input.network).filter(({ stood, wanted }) => wanted > stood)
  if (fetched.length === 0) return []
  const furnishingIds = fetched.map(({ furnishing }) => furnishing.id)
  const names = listText(fetched.map(({ furnishing }) => furnishing.namePlural))
  return [
    {
      change: { kind: 'staged-at-door', furnishingIds },
      what: `${beginning(names)} staged at the door beforehand`,
      isNeverLater: true,
      readyAt: () => {
        const staged = keptNearby(snapshot, input.room.id, furnishingIds, 'the door')
        const changed = circumstancesOf(staged, turn)
        return changed && readyAtIn(changed, search)
      },
    },
  ]
}
