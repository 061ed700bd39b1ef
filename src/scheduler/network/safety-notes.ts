/** The usual cautions of the trade, printed with the task they belong to. Common practice, no source, unless it says. */
import type { Furnishing, FurnishingKind } from '../../domain/furnishing.ts'
import type { UnitSystem } from '../../domain/site.ts'
import {
  assessLift,
  CARRY_METRES_MOST,
  TEAM_LIFT_STAIRS_NOTE,
  teamLiftKilograms,
} from '../standards/lifting/index.ts'
import type { NetworkInput } from './network-input.ts'
import { distanceText, massText } from './task-catalogue/words.ts'
import type { StoreWay } from './travel.ts'

export const LOOK_AT_THE_PATH = 'Look at the whole path before you push a trolley.'
export const WET_FLOOR = 'Put up wet-floor signs and leave them until the floor is dry.'
export const EXITS_CLEAR = 'Keep every exit, aisle and fire-alarm pull station clear.'
export const QUALIFIED_ONLY =
  'Leave ladders, anything hung overhead and mains electrics to qualified people. When in doubt, stop and ask.'
export const MAKERS_INSTRUCTIONS = "Follow the maker's instructions."
export const LIMIT_DECIDES =
  'The posted occupant limit and the local fire and building code decide, not this list.'
export const GLOVES_FOR_BINS = 'Wear gloves; look before you reach into a bin.'
export const BROKEN_GLASS = 'Broken glass goes in a box, never in a bag.'
export const NO_SUDDEN_SOUND = 'Start low and say when it gets loud.'
export const LIGHT_TO_WALK_BY = 'Exit signs stay lit; nobody walks about in the dark.'

const STAGE_NOTES = ['Legs pinned and rails on before anybody steps up.', MAKERS_INSTRUCTIONS]
const STACK_NOTE = 'Stack no higher than the maker allows, and never where children play.'

const handlingNotes: Readonly<Record<FurnishingKind, readonly string[]>> = {
  'stacking-chair': [STACK_NOTE],
  'folding-chair': ['Keep fingers out of the hinges.', STACK_NOTE],
  'round-table': ['Two people to a table, always for one of 72 in. Legs locked before letting go.'],
  'long-table': ['Two people to an 8-ft table. Legs locked before letting go.'],
  'stage-deck': ['Two people to every deck, adults only.', ...STAGE_NOTES],
  'post-pair': [
    'Two people to a pair of posts. Never let a post fall or lean unattended.',
    MAKERS_INSTRUCTIONS,
  ],
  'games-table': ['Two people to a table. Catches locked before letting go.', MAKERS_INSTRUCTIONS],
  'table-cloth': [],
  'place-setting': [BROKEN_GLASS],
  'stage-rail': ['Two people to every rail.', ...STAGE_NOTES],
  'dance-floor-panel': ['Keep fingers out of the joints. No edge left that anybody can trip over.'],
  other: ['Lift with somebody else what you would not lift twice alone.'],
}

/** A piece lighter than this for each of its carriers may be carried any way there is. Common practice, no source. */
const HEAVY_KILOGRAMS_A_HAND = 5
/** The guideline weight for a man at the best height, close to the body; HSE L23, second-hand. */
const GUIDELINE_KILOGRAMS = 25
/** Above it a task wants a trolley, more hands or qualified staff: the model of this site's tasks. */
const INDEX_FOR_HELP = 2
/** HSE L23, second-hand: more than four are unlikely to lift together. */
const LIFT_TOGETHER_MOST = 4

/** Building a stage is left to adults. */
const isForAdultsByKind = (kind: FurnishingKind): boolean => kind === 'stage-deck' || kind === 'stage-rail'

/** As the furnishing says or as is usual for its kind, and whatever is heavier per hand than minors may lift. */
export const isForAdultsOnly = (furnishing: Furnishing, { policy }: Pick<NetworkInput, 'policy'>): boolean =>
  (furnishing.adultsOnly ?? isForAdultsByKind(furnishing.kind)) ||
  kilogramsAHand(furnishing) > policy.minorMassLimitKilograms

const kilogramsAHand = ({ massKilograms, handsPerPiece }: Furnishing): number => massKilograms / handsPerPiece

/**
 * For handling pieces, what their mass adds, and, with `way`, what the way between room and store adds.
 * @param way  null: they stay in the room
 */
export function pieceNotes(furnishing: Furnishing, way: StoreWay | null, input: NetworkInput): string[] {
  const notes = [...handlingNotes[furnishing.kind]]
  if (way?.byTrolley) notes.push(LOOK_AT_THE_PATH)
  notes.push(...massNotes(furnishing, input), ...liftingNotes(furnishing))
  if (way && !way.byTrolley) notes.push(...carryNotes(furnishing, way, input.units))
  return notes
}

function massNotes(furnishing: Furnishing, { policy, units }: NetworkInput): string[] {
  const { massKilograms, handsPerPiece, method } = furnishing
  const notes: string[] = []
  const each = kilogramsAHand(furnishing)
  if (each > policy.minorMassLimitKilograms) {
    notes.push(
      `Adults only: ${massText(each, units)} for each who lifts, and minors lift ${massText(policy.minorMassLimitKilograms, units)} at most.`,
    )
  }
  if (handsPerPiece > LIFT_TOGETHER_MOST) {
    notes.push('More than four people are unlikely to lift one piece well together: look for another way.')
  }
  const team = teamLiftKilograms(Array.from({ length: handsPerPiece }, () => GUIDELINE_KILOGRAMS))
  if (method === 'carry' && team !== null && massKilograms > team) {
    notes.push(
      `${massText(massKilograms, units)} is more than guidance gives ${handsPerPiece === 1 ? 'one person' : `${handsPerPiece} people`} to lift (about ${massText(team, units)} at best height): more hands or a trolley.`,
    )
  }
  return notes
}

/**
 * The lifting index of one piece with its mass shared among its hands, judged at both ends as it has to be put down
 * with care, for up to an hour of it. It never changes how many hands there are: rolling, pushing and carrying are
 * outside the equation.
 * @source revised NIOSH lifting equation (NIOSH 94-110, rev. 9/2021)
 */
export function liftingIndex({ lift, massKilograms, handsPerPiece }: Furnishing): number | null {
  if (lift === null) return 0
  const hands = (vertical: number) => ({
    horizontal: lift.horizontalCentimetres,
    vertical,
    asymmetryDegrees: lift.asymmetryDegrees,
  })
  return assessLift(
    {
      units: 'metric',
      load: massKilograms / handsPerPiece,
      origin: hands(lift.originHeightCentimetres),
      destination: { placedWithCare: true, hands: hands(lift.destinationHeightCentimetres) },
      liftsPerMinute: lift.liftsPerMinute,
      duration: 'short',
      grip: lift.coupling,
    },
    'full',
  ).liftingIndex
}

function liftingNotes(furnishing: Furnishing): string[] {
  if (furnishing.lift === null || furnishing.method === 'slide') return []
  const index = liftingIndex(furnishing)
  const help = 'It needs a trolley, more hands or qualified staff.'
  if (index === null) {
    return [`No weight is recommended for this lift (revised NIOSH lifting equation). ${help}`]
  }
  if (index <= 1) return []
  const shown = Math.round(index * 100) / 100
  const note = `Lifting index ${shown} with ${furnishing.handsPerPiece} to a piece (revised NIOSH lifting equation): above 1.0 some people run a higher risk of hurting their back.`
  return index > INDEX_FOR_HELP ? [note, help] : [note]
}

function carryNotes(furnishing: Furnishing, way: StoreWay, units: UnitSystem): string[] {
  if (furnishing.method === 'roll' || furnishing.method === 'slide') return []
  if (kilogramsAHand(furnishing) < HEAVY_KILOGRAMS_A_HAND) return []
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
