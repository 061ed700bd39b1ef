import { speaksAgainst } from '../../../domain/reason.ts'
import type { Turn } from '../../../domain/turn.ts'
import type { WholeSite } from './whole-site.ts'

/** The warnings are exactly those of turns that fail or rest on hands that nobody has promised. */
export const warningsAsNeeded = ({ snapshot }: WholeSite): string[] => snapshot.turns.flatMap(warningFaults)

function warningFaults(turn: Turn): string[] {
  const { judgement, status } = turn
  const isWarned = judgement.warnedSince !== null
  if (status === 'dropped') return isWarned ? [`${turn.id} is dropped and still warned of`] : []
  if (status === 'failing' && !judgement.reasons.some(speaksAgainst))
    return [`${turn.id} fails without a reason`]
  if (status === 'ready' && judgement.reasons.some(speaksAgainst))
    return [`${turn.id} is said to be ready, and something speaks against it`]
  const isInTrouble = status === 'failing' || judgement.hands.assumed > 0
  if (isInTrouble && !isWarned) return [`${turn.id} is in trouble and nobody is warned`]
  return isWarned && !isInTrouble ? [`${turn.id} is warned of without need`] : []
}
