/** Advice on lifting the pieces of a layout: the lifting index, what a team may lift, how far to carry. */
import type { Furnishing } from '../../../domain/furnishing.ts'
import type { UnitSystem } from '../../../domain/site.ts'
import {
  CARRY_METRES_MOST,
  CARRY_SOURCE,
  guidelineTeamKilograms,
  liftingIndexReading,
  MINOR_SHARE_SOURCE,
  pieceLiftingIndex,
  TEAM_LIFT_SOURCE,
} from '../lifting/index.ts'
import type { AdviceItem, AdviceVerdict } from './advice-item.ts'
import { countText, distanceText, massText, massUnit, shownMass } from './measure-text.ts'

export interface LiftingAdviceInput {
  readonly units: UnitSystem
  /** Those of the layout, each once. */
  readonly furnishings: readonly Furnishing[]
  /** The longest way from the store of a furnishing to the room; null: unknown. */
  readonly carryMetres: (furnishing: Furnishing) => number | null
  /** What minors may lift at this site, kg. */
  readonly minorMassLimitKilograms: number
}

const NIOSH = 'Revised NIOSH lifting equation, NIOSH 94-110 (rev. 9/2021)'
const INDEX_TO_LOOK_AT = 1
const INDEX_FOR_HELP = 2
/** Lighter than this for each who lifts, a piece may be carried any way there is. Common practice, no source. */
const HEAVY_KILOGRAMS_A_HAND = 5

/**
 * Heaviest first, of equal weight by name. Only of pieces worth a word: more than 5 kg for each who lifts, more than
 * minors may lift at this site, or a lift that somebody has described. Empty: there are none such.
 */
export function liftingAdvice(input: LiftingAdviceInput): AdviceItem[] {
  const worthAWord = ({ massKilograms, handsPerPiece, lift }: Furnishing) =>
    lift !== null ||
    massKilograms / handsPerPiece > Math.min(HEAVY_KILOGRAMS_A_HAND, input.minorMassLimitKilograms)
  const heaviestFirst = input.furnishings
    .filter(worthAWord)
    .sort((a, b) => b.massKilograms - a.massKilograms || a.name.localeCompare(b.name, 'en'))
  return heaviestFirst.flatMap((furnishing) => [
    ...indexAdvice(furnishing),
    ...teamAdvice(furnishing, input.units),
    ...carryAdvice(furnishing, input),
    ...minorAdvice(furnishing, input),
  ])
}

function indexAdvice({ name, lift, massKilograms, handsPerPiece }: Furnishing): AdviceItem[] {
  if (lift === null) return []
  const index = pieceLiftingIndex({ massKilograms, handsPerPiece, lift })
  const people = countText(handsPerPiece, 'person', 'people')
  const shown = index === null ? null : Math.round(index * 100) / 100
  const help =
    index === null || index > INDEX_FOR_HELP ? ' Use a trolley, more hands or qualified staff.' : ''
  return [
    {
      topic: 'lifting',
      code: 'lifting-index',
      text:
        shown === null
          ? `No weight is recommended for lifting one ${name} this way.${help}`
          : `Lifting one ${name} with ${people} has a lifting index of ${shown}. ${liftingIndexReading(index).text}${help}`,
      found: shown,
      required: INDEX_TO_LOOK_AT,
      unit: 'lifting index',
      verdict: index !== null && index <= INDEX_TO_LOOK_AT ? 'ok' : 'look',
      ...(handsPerPiece > 1
        ? { source: `${NIOSH}; the mass shared evenly`, status: 'common practice, no source' }
        : { source: NIOSH, status: 'second-hand' }),
    },
  ]
}

function teamAdvice(
  { name, method, massKilograms, handsPerPiece }: Furnishing,
  units: UnitSystem,
): AdviceItem[] {
  if (method !== 'carry' && method !== 'trolley') return []
  const guideline = guidelineTeamKilograms(handsPerPiece)
  if (guideline === null) {
    return [
      {
        topic: 'lifting',
        code: 'team-lift',
        text: `More than three people to one ${name}: nothing is published on what they can lift together; look for another way.`,
        found: shownMass(massKilograms, units),
        required: null,
        unit: massUnit(units),
        verdict: 'unknown',
        source: TEAM_LIFT_SOURCE,
        status: 'second-hand',
      },
    ]
  }
  const { women, men } = guideline
  const verdict: AdviceVerdict = massKilograms <= women ? 'ok' : 'look'
  return [
    {
      topic: 'lifting',
      code: 'team-lift',
      text: `One ${name} weighs ${massText(massKilograms, units)}; at the best height guidance gives ${countText(handsPerPiece, 'person', 'people')} about ${massText(women, units)} (women) to ${massText(men, units)} (men) before somebody should look closer.`,
      found: shownMass(massKilograms, units),
      required: shownMass(women, units),
      unit: massUnit(units),
      verdict,
      source: TEAM_LIFT_SOURCE,
      status: 'second-hand',
    },
  ]
}

function carryAdvice(furnishing: Furnishing, { units, carryMetres }: LiftingAdviceInput): AdviceItem[] {
  const metres = carryMetres(furnishing)
  const { name, namePlural, method, massKilograms, handsPerPiece } = furnishing
  if (method !== 'carry' || massKilograms / handsPerPiece <= HEAVY_KILOGRAMS_A_HAND) return []
  if (metres !== null && metres <= CARRY_METRES_MOST) return []
  return [
    {
      topic: 'lifting',
      code: 'carry-distance',
      text:
        metres === null
          ? `How far ${namePlural} are carried is not known; carry one ${name} no more than about ${distanceText(CARRY_METRES_MOST, units)} without a rest.`
          : `The ${namePlural} are carried ${distanceText(metres, units)}: put them down on the way, guidance says about ${distanceText(CARRY_METRES_MOST, units)} without a rest, or use a trolley.`,
      found: metres,
      required: CARRY_METRES_MOST,
      unit: 'm',
      verdict: metres === null ? 'unknown' : 'look',
      source: CARRY_SOURCE,
      status: 'second-hand',
    },
  ]
}

function minorAdvice(
  { name, massKilograms, handsPerPiece }: Furnishing,
  { units, minorMassLimitKilograms }: LiftingAdviceInput,
): AdviceItem[] {
  const each = massKilograms / handsPerPiece
  if (each <= minorMassLimitKilograms) return []
  return [
    {
      topic: 'lifting',
      code: 'not-for-minors',
      text: `One ${name} is ${massText(each, units)} for each who lifts it; people under 18 lift at most ${massText(minorMassLimitKilograms, units)} at this site, so this is work for adults.`,
      found: shownMass(each, units),
      required: shownMass(minorMassLimitKilograms, units),
      unit: massUnit(units),
      verdict: 'look',
      source: `the policy of the site; ${MINOR_SHARE_SOURCE}`,
      status: 'common practice, no source',
    },
  ]
}
