/** Taking down what is not wanted where it stands, and putting up what is: in each zone, kind after kind. */
import type { FurnishingKind } from '../../domain/furnishing.ts'
import type { Task, TaskKey } from '../../domain/task.ts'
import { evenParts, type LoadLot, type Loads, loadLotCount, loadLots, pieceLotCount } from './lots.ts'
import type { NetworkInput } from './network-input.ts'
import type { TurnOutline, ZoneStep } from './outline.ts'
import { zoneName, zonePlace } from './outline.ts'
import { passageUses } from './passage-use.ts'
import type { PieceJob } from './piece-jobs.ts'
import { pieceTerms } from './piece-terms.ts'
import { reckoningOfWork } from './reckoned-numbers.ts'
import type { RestackKeys } from './restack.ts'
import { isForAdultsOnly, pieceNotes, piecesAtOnce } from './safety-notes.ts'
import { pieceText } from './task-catalogue/piece-texts.ts'
import type { TravelWork } from './travel.ts'
import { wipeTasks } from './wipe-tables.ts'
import { handsOnPieces, modesOfWork, workFactor, workPersonSeconds } from './work-content.ts'
import type { Zone } from './zones.ts'

/** Settings before cloths, both before chairs, chairs out of the way of tables, the stage last, rails off it first. */
const STRIKE_ORDER_BEFORE_WIPING: readonly (readonly FurnishingKind[])[] = [
  ['place-setting'],
  ['table-cloth'],
]
const STRIKE_ORDER_AFTER_WIPING: readonly (readonly FurnishingKind[])[] = [
  ['stacking-chair', 'folding-chair'],
  ['games-table', 'post-pair', 'other'],
  ['round-table', 'long-table'],
  ['stage-rail'],
  ['stage-deck', 'dance-floor-panel'],
]

/** The stage before tables, cloths and settings on tables, chairs last: they would be in the way of everything else. */
const SET_ORDER: readonly (readonly FurnishingKind[])[] = [
  ['stage-deck', 'dance-floor-panel'],
  ['stage-rail'],
  ['round-table', 'long-table'],
  ['table-cloth'],
  ['place-setting'],
  ['post-pair', 'games-table', 'other'],
  ['stacking-chair', 'folding-chair'],
]

/**
 * Clear and take away, in each zone; tables are wiped when nothing lies on them any more. What goes behind something in
 * its store waits for that to be moved.
 */
export function strikeSteps(outline: TurnOutline, restackKeys: RestackKeys): ZoneStep[] {
  const { strike } = outline.jobs
  return [
    ...STRIKE_ORDER_BEFORE_WIPING.map((kinds) => pieceStep(outline, strike, kinds, restackKeys)),
    (zone, zoneIndex, before) => wipeTasks(outline, zone, zoneIndex, before),
    ...STRIKE_ORDER_AFTER_WIPING.map((kinds) => pieceStep(outline, strike, kinds, restackKeys)),
  ]
}

/** Set up, in each zone; what stands behind something in its store waits for that to be moved. */
export const setSteps = (outline: TurnOutline, restackKeys: RestackKeys): ZoneStep[] =>
  SET_ORDER.map((kinds) => pieceStep(outline, outline.jobs.set, kinds, restackKeys))

/** How many tasks the steps above would make, without making them. */
export function pieceTaskCount(outline: TurnOutline): number {
  let count = outline.jobs.tablesToWipe.filter((tables) => tables > 0).length
  for (const job of [...outline.jobs.strike, ...outline.jobs.set]) {
    for (const pieces of job.byZone) count += lotCount(outline, job, pieces)
  }
  return count
}

function pieceStep(
  outline: TurnOutline,
  jobs: readonly PieceJob[],
  kinds: readonly FurnishingKind[],
  restackKeys: RestackKeys,
): ZoneStep {
  const ofKinds = jobs
    .filter((job) => kinds.includes(job.furnishing.kind))
    .map((job): LotsOfJob => {
      const { furnishing, way, withStore, byZone } = job
      const wayTaken = withStore ? way : null
      const atOnce = piecesAtOnce(wayTaken, Math.max(...byZone))
      return {
        job,
        waitFor:
          (withStore && !(job.soiled && job.direction === 'strike') && restackKeys.get(furnishing.id)) || [],
        safetyNotes: pieceNotes(furnishing, wayTaken, outline.input, atOnce),
        adultsOnly: isForAdultsOnly(furnishing, outline.input, atOnce),
      }
    })
  return (zone, zoneIndex, before) =>
    ofKinds.flatMap((lots) => lotTasks(outline, lots, lots.job.byZone[zoneIndex]!, zone, before))
}

/** What all lots of a job have in common. */
interface LotsOfJob {
  readonly job: PieceJob
  readonly waitFor: readonly TaskKey[]
  readonly safetyNotes: readonly string[]
  readonly adultsOnly: boolean
}

function lotTasks(
  outline: TurnOutline,
  { job, waitFor, safetyNotes, adultsOnly }: LotsOfJob,
  count: number,
  zone: Zone,
  before: readonly TaskKey[],
): Task[] {
  if (count === 0) return []
  const { input, reckonings } = outline
  const { furnishing, direction, kind, zoneIsGuessed } = job
  const here = zoneIsGuessed ? input.room.name : zonePlace(outline, zone)
  const place = placeOfJob(input, job, here)
  const name = zoneIsGuessed ? null : zoneName(outline, zone)
  const parkedLot = direction === 'strike' ? 'aside-' : 'from-side-'
  const lotName = job.straight
    ? 'straight-'
    : job.onFloor
      ? `from-zone-${job.onFloor.carry.fromZone + 1}-`
      : job.withStore || kind === 'park'
        ? ''
        : parkedLot
  const factor = workFactor(input.policy)
  return lotsOf(outline, job, count).map((lot, index): Task => {
    const { pieces, loads } = lot
    const practised = pieces * job.handlingEach + loads * (job.load?.practisedPersonSeconds ?? 0)
    const ride = loads * (job.load?.ridePersonSeconds ?? 0)
    const work = workPersonSeconds(practised, input.policy, ride)
    const passages =
      job.load && job.withStore
        ? passageUses(furnishing, job.way, loads / (practised * factor + ride), factor, input.rates)
        : []
    const hands = handsOnPieces(furnishing.handsPerPiece, pieces, job.oneTeam ? 1 : undefined)
    const modes = modesOfWork(work, handsThatPass(hands, job, passages), input.policy)
    const task: Task = {
      key: `${kind}/${furnishing.id}/${zoneIsGuessed ? 'room' : `zone-${zone.number}`}/${lotName}${index + 1}`,
      kind,
      zone: zoneIsGuessed ? null : zone.number,
      text: pieceText(outline, job, lot, name, modes),
      count: pieces,
      furnishingId: furnishing.id,
      equipmentId: null,
      fromPlace: direction === 'strike' ? here : place,
      toPlace: direction === 'strike' ? place : here,
      workPersonSeconds: work,
      modes,
      skill: null,
      adultsOnly,
      uses: [...job.uses, ...passages],
      after: [...before, ...waitFor],
      safetyNotes: [...safetyNotes],
      // Places can be laid as people sit down: common practice, no source.
      ...(kind === 'settings' ? { optional: true } : {}),
    }
    reckonings?.set(task.key, reckoningOfWork(input, pieceTerms(input, job, lot), task))
    return task
  })
}

/** Where its pieces come from or go, beside the zone. */
function placeOfJob({ room }: NetworkInput, { straight, withStore, place }: PieceJob, here: string): string {
  if (straight) return here
  return withStore ? place : `${room.name}: ${place}`
}

/** Hands with which the lot is not in a passage for more than all of its time; the fewest always remain. */
function handsThatPass(
  hands: readonly number[],
  { way }: PieceJob,
  passages: Task['uses'],
): readonly number[] {
  return hands.filter(
    (count, index) =>
      index === 0 ||
      passages.every(({ amount }, i) => amount * count <= 100 * (way.passages[i]?.trolleysAtOnce ?? 1)),
  )
}

function lotCount({ input, lotSize }: TurnOutline, job: PieceJob, pieces: number): number {
  return job.load
    ? loadLotCount(loadsOf(input, job, job.load, pieces), lotSize)
    : pieceLotCount(pieces, job.handlingEach * workFactor(input.policy), lotSize)
}

function lotsOf(outline: TurnOutline, job: PieceJob, pieces: number): readonly LoadLot[] {
  const { input, lotSize } = outline
  if (job.load) return loadLots(loadsOf(input, job, job.load, pieces), lotSize)
  return evenParts(pieces, lotCount(outline, job, pieces)).map((part) => ({
    pieces: part,
    loads: 0,
    piecesOnALoad: 0,
  }))
}

function loadsOf({ policy }: NetworkInput, job: PieceJob, load: TravelWork, pieces: number): Loads {
  const factor = workFactor(policy)
  return {
    pieces,
    piecesPerLoad: (job.onFloor ?? job.way).piecesPerLoad,
    byTrolley: (job.onFloor ?? job.way).byTrolley,
    pieceSeconds: job.handlingEach * factor,
    loadSeconds: load.practisedPersonSeconds * factor + load.ridePersonSeconds,
  }
}
