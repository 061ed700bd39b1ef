/** What strike and set share: pieces of several furnishings, zone by zone, in the order of their kinds. */
import type { Furnishing, FurnishingKind } from '../../domain/furnishing.ts'
import type { StoragePlace } from '../../domain/storage-place.ts'
import type { Task } from '../../domain/task.ts'
import { evenParts, pieceLotCount } from './lots.ts'
import type { KeysByZone, TurnOutline, ZonedTasks } from './outline.ts'
import type { PieceRate } from './rates.ts'
import { isForAdultsOnly, pieceNotes } from './safety-notes.ts'
import { distanceToRoomMetres, travelPersonSeconds } from './travel.ts'
import { handsOnPieces, modesOfWork, workFactor, workPersonSeconds } from './work-content.ts'
import type { Zone } from './zones.ts'

/** Pieces of one furnishing that all go the same way. */
export interface PieceJob {
  readonly furnishing: Furnishing
  /** 0 or more, in the whole room. */
  readonly count: number
  /** null: they stay in the room, without a way to the store. */
  readonly store: StoragePlace | null
}

/** What strike and set say in their own words. */
export interface PieceWording {
  readonly kind: 'strike' | 'set'
  /** Key of lots that stay in the room, `aside` or `from-side`. */
  readonly inRoomName: string
  /** Kinds that are worked together, in order. */
  readonly order: readonly (readonly FurnishingKind[])[]
  readonly rate: (rate: PieceRate, furnishing: Furnishing) => number
  readonly text: (job: PieceJob, count: number, zone: Zone, modes: Task['modes']) => string
  readonly places: (job: PieceJob, zone: Zone) => Pick<Task, 'fromPlace' | 'toPlace'>
}

export const trolleyKey = (furnishing: Furnishing): string => `trolley:${furnishing.id}`

/**
 * In each zone the kinds follow each other; lots of one kind, and of kinds of one step, may go on side by side.
 * The first step of a zone waits for `entriesByZone`; a zone without pieces ends with its entries.
 */
export function pieceTasks(
  outline: TurnOutline,
  jobs: readonly PieceJob[],
  wording: PieceWording,
  entriesByZone: KeysByZone,
): ZonedTasks {
  const shares = jobs.map((job) => evenParts(job.count, outline.zones.length))
  const tasks: Task[] = []
  const endsByZone = outline.zones.map((zone, zoneIndex) => {
    let before = entriesByZone[zoneIndex]!
    for (const kinds of wording.order) {
      const step = jobs.flatMap((job, jobIndex) =>
        kinds.includes(job.furnishing.kind)
          ? lotTasks(outline, job, shares[jobIndex]![zoneIndex]!, zone, wording, before)
          : [],
      )
      tasks.push(...step)
      if (step.length > 0) before = step.map((task) => task.key)
    }
    return before
  })
  return { tasks, endsByZone }
}

/** How many tasks `pieceTasks` would make of these jobs, without making them. */
export function pieceTaskCount(
  outline: TurnOutline,
  jobs: readonly PieceJob[],
  wording: PieceWording,
): number {
  let count = 0
  for (const job of jobs) {
    const practisedEach = practisedPersonSecondsEach(outline, job, wording)
    for (const pieces of evenParts(job.count, outline.zones.length)) {
      count += lotCount(outline, job, pieces, practisedEach)
    }
  }
  return count
}

function lotTasks(
  outline: TurnOutline,
  job: PieceJob,
  count: number,
  zone: Zone,
  wording: PieceWording,
  before: readonly string[],
): Task[] {
  if (count === 0) return []
  const { policy } = outline.input
  const { furnishing, store } = job
  const trolley = store && furnishing.trolley
  const practisedEach = practisedPersonSecondsEach(outline, job, wording)
  const lots = evenParts(count, lotCount(outline, job, count, practisedEach))
  return lots.map((pieces, index): Task => {
    const work = workPersonSeconds(pieces * practisedEach, policy)
    const modes = modesOfWork(work, handsOnPieces(furnishing.handsPerPiece, pieces), policy)
    const lot = store ? `${index + 1}` : `${wording.inRoomName}-${index + 1}`
    return {
      key: `${wording.kind}/${furnishing.id}/zone-${zone.number}/${lot}`,
      kind: wording.kind,
      zone: zone.number,
      text: wording.text(job, pieces, zone, modes),
      count: pieces,
      furnishingId: furnishing.id,
      equipmentId: null,
      ...wording.places(job, zone),
      workPersonSeconds: work,
      modes,
      skill: null,
      adultsOnly: isForAdultsOnly(furnishing.kind),
      uses: trolley ? [{ resource: trolleyKey(furnishing), amount: 1 }] : [],
      after: [...before],
      safetyNotes: pieceNotes(furnishing.kind, trolley !== null),
    }
  })
}

function lotCount(
  { input, lotSize }: TurnOutline,
  job: PieceJob,
  pieces: number,
  practisedEach: number,
): number {
  const trolleyCapacity = (job.store && job.furnishing.trolley)?.capacityPieces ?? null
  return pieceLotCount(pieces, practisedEach * workFactor(input.policy), trolleyCapacity, lotSize)
}

/** Handling of one piece and its share of the way: the trips of the whole room's pieces are shared evenly. */
function practisedPersonSecondsEach({ input }: TurnOutline, job: PieceJob, wording: PieceWording): number {
  const { furnishing, count, store } = job
  if (count === 0) return 0
  const { rates } = input
  const rate = (furnishing.trolley ? rates.fromTrolley : rates.byHand)[furnishing.kind]
  const handling = wording.rate(rate, furnishing)
  if (!store) return handling
  const distanceMetres = distanceToRoomMetres(store, input.room.id, rates)
  return handling + travelPersonSeconds(furnishing, count, distanceMetres, rates) / count
}
