/**
 * What stands in front in a store must come out of the way before anything behind it is fetched or put away, and goes
 * back when that is done: two tasks, with everything behind between them.
 */
import type { FurnishingId } from '../../domain/ids.ts'
import type { ReckonedTerm } from '../../domain/reckoning.ts'
import type { Task, TaskKey } from '../../domain/task.ts'
import { piecesText } from '../wording/pieces-text.ts'
import { evenParts, pieceLotCount } from './lots.ts'
import type { NetworkInput } from './network-input.ts'
import type { TurnOutline } from './outline.ts'
import { trolleyKey } from './piece-jobs.ts'
import type { InFront } from './pieces-in-front.ts'
import { computedNumber, givenNumber, singleRate, term } from './reckoned-numbers.ts'
import { isForAdultsOnly, LOOK_AT_THE_PATH, pieceNotes } from './safety-notes.ts'
import { putBackText, restackText } from './task-catalogue/room-texts.ts'
import { goesByTrolley } from './travel.ts'
import { handsOnPieces, workFactor } from './work-content.ts'
import { workTask } from './work-task.ts'

/** Of a furnishing that is fetched or put away: the tasks that make way for it. */
export type RestackKeys = ReadonlyMap<FurnishingId, readonly TaskKey[]>

export interface Restacked {
  readonly tasks: readonly Task[]
  readonly beforeFetching: RestackKeys
  readonly beforePuttingAway: RestackKeys
}

type Way = 'out' | 'back'

/** What stands in the way already. */
export const restackTasks = (outline: TurnOutline, after: readonly TaskKey[]): Restacked =>
  restacked(
    outline,
    outline.inFront.filter((one) => !one.justStruck),
    () => after,
  )

/** What the turn itself puts in the way, once it is all there. */
export const restackTasksOfJustStruck = (outline: TurnOutline, struck: readonly Task[]): Restacked =>
  restacked(
    outline,
    outline.inFront.filter((one) => one.justStruck),
    ({ furnishing, store }) =>
      struck
        .filter((task) => task.furnishingId === furnishing.id && task.toPlace === store.name)
        .map((task) => task.key),
  )

function restacked(
  outline: TurnOutline,
  piles: readonly InFront[],
  after: (inFront: InFront) => readonly TaskKey[],
): Restacked {
  const beforeFetching = new Map<FurnishingId, TaskKey[]>()
  const beforePuttingAway = new Map<FurnishingId, TaskKey[]>()
  const tasks = piles.flatMap((inFront) => {
    const made = lotTasks(outline, inFront, 'out', after(inFront))
    const keys = made.map((task) => task.key)
    for (const { id } of inFront.fetched) beforeFetching.set(id, [...(beforeFetching.get(id) ?? []), ...keys])
    for (const { id } of inFront.putAway) {
      beforePuttingAway.set(id, [...(beforePuttingAway.get(id) ?? []), ...keys])
    }
    return made
  })
  return { tasks, beforeFetching, beforePuttingAway }
}

/**
 * Everything that was moved out of the way goes back, once what is behind it is out and in.
 * @param moved  all tasks that take pieces out of the stores or into them
 */
export const putBackTasks = (outline: TurnOutline, moved: readonly Task[]): Task[] =>
  outline.inFront.flatMap((inFront) => {
    const { store, fetched, putAway } = inFront
    const isBehind = ({ kind, furnishingId, fromPlace, toPlace }: Task): boolean =>
      kind !== 'restack' &&
      ((fromPlace === store.name && fetched.some(({ id }) => id === furnishingId)) ||
        (toPlace === store.name && putAway.some(({ id }) => id === furnishingId)))
    return lotTasks(
      outline,
      inFront,
      'back',
      moved.filter(isBehind).map(({ key }) => key),
    )
  })

export const restackTaskCount = (outline: TurnOutline): number =>
  outline.inFront.reduce(
    (sum, inFront) => sum + lotCount(outline, inFront, 'out') + lotCount(outline, inFront, 'back'),
    0,
  )

const countOf = ({ count, countBack }: InFront, way: Way): number => (way === 'out' ? count : countBack)

function lotCount({ input, lotSize }: TurnOutline, inFront: InFront, way: Way): number {
  const count = countOf(inFront, way)
  if (count === 0) return 0
  const each = (loadsOf(inFront, count, input) * loadPersonSeconds(inFront, input)) / count
  return pieceLotCount(count, each * workFactor(input.policy), lotSize)
}

/** One way: a trolley is handled once; a carry is of the short length, and who carries walks back. */
function loadPersonSeconds({ furnishing }: InFront, { rates }: NetworkInput): number {
  if (goesByTrolley(furnishing)) return Math.min(furnishing.handsPerPiece, 2) * rates.trolleyHandlingSeconds
  const carry =
    rates.shortCarryMetres / rates.carryingMetresPerSecond +
    rates.shortCarryMetres / rates.walkingMetresPerSecond
  return furnishing.handsPerPiece * carry
}

const loadsOf = ({ furnishing }: InFront, count: number, { rates }: NetworkInput): number =>
  Math.ceil(
    count /
      (goesByTrolley(furnishing) && furnishing.trolley
        ? furnishing.trolley.capacityPieces
        : rates.piecesPerCarry[furnishing.kind]),
  )

function lotTasks(outline: TurnOutline, inFront: InFront, way: Way, after: readonly TaskKey[]): Task[] {
  const lots = lotCount(outline, inFront, way)
  if (lots === 0) return []
  return evenParts(countOf(inFront, way), lots).map((pieces, index) =>
    restackTask(outline, inFront, way, pieces, index, after),
  )
}

function restackTask(
  outline: TurnOutline,
  inFront: InFront,
  way: Way,
  pieces: number,
  index: number,
  after: readonly TaskKey[],
): Task {
  const { input } = outline
  const { store, furnishing, justStruck } = inFront
  const count = countOf(inFront, way)
  const loads = (loadsOf(inFront, count, input) * pieces) / count
  const atOnce = goesByTrolley(furnishing) ? 1 : Math.min(count, input.rates.piecesPerCarry[furnishing.kind])
  return workTask(outline, {
    key: `restack/${store.id}/${furnishing.id}/${justStruck ? 'just-struck-' : ''}${way}-${index + 1}`,
    kind: 'restack',
    zone: null,
    count: pieces,
    furnishingId: furnishing.id,
    fromPlace: store.name,
    toPlace: store.name,
    practisedPersonSeconds: loads * loadPersonSeconds(inFront, input),
    hands: handsOnPieces(furnishing.handsPerPiece, pieces),
    text: (modes) => (way === 'out' ? restackText : putBackText)(inFront, pieces, modes),
    terms: () => restackTerms(input, inFront, count, loads),
    adultsOnly: isForAdultsOnly(furnishing, input, atOnce),
    uses: goesByTrolley(furnishing) ? [{ resource: trolleyKey(furnishing), amount: 1 }] : [],
    after,
    safetyNotes: [
      ...pieceNotes(furnishing, null, input, atOnce),
      ...(goesByTrolley(furnishing) ? [LOOK_AT_THE_PATH] : []),
    ],
  })
}

function restackTerms(input: NetworkInput, inFront: InFront, count: number, loads: number): ReckonedTerm[] {
  const { furnishing } = inFront
  const loadNumber = computedNumber(
    'loads',
    loads,
    'loads',
    `Its share of ${loadsOf(inFront, count, input)} for ${piecesText(count, furnishing)} that can be in the store`,
  )
  const people = givenNumber(
    'people with each load',
    goesByTrolley(furnishing) ? Math.min(furnishing.handsPerPiece, 2) : furnishing.handsPerPiece,
    'hands',
    `Who moves ${furnishing.namePlural}`,
  )
  if (goesByTrolley(furnishing)) {
    const handling = singleRate(input, 'handling of a trolley', 'seconds', 'trolleyHandlingSeconds')
    return [term('trolley', [loadNumber, people, handling])]
  }
  const metres = singleRate(input, 'a short carry', 'metres', 'shortCarryMetres')
  return [
    term(
      'with the load',
      [loadNumber, people, metres],
      [singleRate(input, 'with a load', 'metres per second', 'carryingMetresPerSecond')],
    ),
    term(
      'way back',
      [loadNumber, people, metres],
      [singleRate(input, 'on foot', 'metres per second', 'walkingMetresPerSecond')],
    ),
  ]
}
