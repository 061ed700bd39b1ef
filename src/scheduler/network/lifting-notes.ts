/** What the mass of a piece adds to its task, for methods by which people lift it; it agrees with the lifting advice. */
import type { Furnishing } from '../../domain/furnishing.ts'
import type { Policy } from '../../domain/policy.ts'
import type { UnitSystem } from '../../domain/site.ts'
import {
  CARRY_METRES_MOST,
  guidelineTeamKilograms,
  liftingIndexReading,
  pieceLiftingIndex,
  TEAM_LIFT_STAIRS_NOTE,
} from '../standards/lifting/index.ts'
import { counted } from '../wording/counted.ts'
import { distanceText, massText } from './task-catalogue/words.ts'
import type { StoreWay } from './travel.ts'

/** A piece lighter than this for each of its carriers may be carried any way there is. Common practice, no source. */
const HEAVY_KILOGRAMS_A_HAND = 5
/** Above it a task wants a trolley, more hands or qualified staff: the model of this site's tasks. */
const INDEX_FOR_HELP = 2
/** HSE L23, second-hand: more than four are unlikely to lift together. */
const LIFT_TOGETHER_MOST = 4

/** What is rolled or slid stays on the floor: the lifting equation and the team guidance are not about it. */
const isLifted = ({ method }: Furnishing): boolean => method === 'carry' || method === 'trolley'

/** What one person holds when so many pieces go at a time, shared among those who handle one piece. */
export const kilogramsEach = (
  { massKilograms, handsPerPiece }: Pick<Furnishing, 'massKilograms' | 'handsPerPiece'>,
  piecesAtOnce: number,
): number => (massKilograms * piecesAtOnce) / handsPerPiece

/**
 * @param piecesAtOnce  1 or more: what is taken at a time where no trolley is used
 */
export function massNotes(
  furnishing: Furnishing,
  piecesAtOnce: number,
  policy: Pick<Policy, 'minorMassLimitKilograms'>,
  units: UnitSystem,
): string[] {
  const notes: string[] = []
  const each = kilogramsEach(furnishing, piecesAtOnce)
  const limit = policy.minorMassLimitKilograms
  if (each > limit) {
    const who = piecesAtOnce > 1 ? `carries ${piecesAtOnce} at a time` : 'lifts'
    notes.push(
      isLifted(furnishing)
        ? `Adults only: ${massText(each, units)} for each who ${who}, and minors lift ${massText(limit, units)} at most.`
        : `Adults only: ${massText(each, units)} for each who moves it, and minors handle ${massText(limit, units)} at most.`,
    )
  }
  return isLifted(furnishing) ? [...notes, ...teamNotes(furnishing, units), ...indexNotes(furnishing)] : notes
}

function teamNotes({ massKilograms, handsPerPiece, method }: Furnishing, units: UnitSystem): string[] {
  if (handsPerPiece > LIFT_TOGETHER_MOST) {
    return ['More than four people are unlikely to lift one piece well together: look for another way.']
  }
  const team = guidelineTeamKilograms(handsPerPiece)
  if (team === null) {
    return [
      'More than three people to a piece: nothing is published on what they can lift together; look for another way.',
    ]
  }
  if (massKilograms <= team.women) return []
  const people = counted(handsPerPiece, 'person', 'people')
  const help = method === 'trolley' ? 'more hands to lift it' : 'more hands or a trolley'
  return [
    `${massText(massKilograms, units)}: guidance gives ${people} about ${massText(team.women, units)} (women) to ${massText(team.men, units)} (men) to lift at best height. If in doubt, ${help}.`,
  ]
}

function indexNotes(furnishing: Furnishing): string[] {
  const { lift, handsPerPiece } = furnishing
  if (lift === null) return []
  const index = pieceLiftingIndex({ ...furnishing, lift })
  const help = 'It needs a trolley, more hands or qualified staff.'
  if (index === null) {
    return [`No weight is recommended for this lift (revised NIOSH lifting equation). ${help}`]
  }
  if (index <= 1) return []
  const shown = Math.round(index * 100) / 100
  const note = `Lifting index ${shown} with ${handsPerPiece} to a piece (revised NIOSH lifting equation). ${liftingIndexReading(index).text}`
  return index > INDEX_FOR_HELP ? [note, help] : [note]
}

/** Of what is carried on the way between room and store. */
export function carryNotes(furnishing: Furnishing, way: StoreWay, units: UnitSystem): string[] {
  if (!isLifted(furnishing) || kilogramsEach(furnishing, 1) <= HEAVY_KILOGRAMS_A_HAND) return []
  const notes: string[] = []
  if (way.distanceMetres > CARRY_METRES_MOST) {
    notes.push(
      `Carried ${distanceText(way.distanceMetres, units)}: put it down on the way; guidance says about ${distanceText(CARRY_METRES_MOST, units)} without a rest.`,
    )
  }
  if (furnishing.handsPerPiece > 1 && way.passages.some((passage) => passage.kind === 'stairs')) {
    notes.push(TEAM_LIFT_STAIRS_NOTE)
  }
  return notes
}
