/** Cleaning the floor after a use, zone by zone, and the time a mopped floor needs to dry. */
import type { CleaningMethod } from '../../domain/policy.ts'
import type { Task } from '../../domain/task.ts'
import type { CleaningJob } from './cleaning-methods.ts'
import { cleaningJobs } from './cleaning-methods.ts'
import { areaLotCount } from './lots.ts'
import type { KeysByZone, TurnOutline, ZonedTasks } from './outline.ts'
import { zoneName, zonePlace } from './outline.ts'
import { WET_FLOOR } from './safety-notes.ts'
import { durationText, peopleText, taskText } from './task-text.ts'
import { modesOfWork, workPersonSeconds } from './work-content.ts'
import type { Zone } from './zones.ts'

/** Floor for one cleaner; more on it get in each other's way. Common practice, no source. */
const SQUARE_METRES_PER_CLEANER = 30
const CLEANERS_MOST_ON_A_LOT = 4

const CLEANING_PHRASE: Record<CleaningMethod, string> = {
  'dust-mop': 'Dust-mop',
  sweep: 'Sweep',
  vacuum: 'Vacuum',
  'spot-mop': 'Mop the stains and spills on',
  'wet-mop': 'Wet-mop',
}

/** One method after the other in each zone, each after all lots of the one before; drying follows a mop at once. */
export function cleanTasks(outline: TurnOutline, entriesByZone: KeysByZone): ZonedTasks {
  const jobs = cleaningJobs(outline.input)
  const tasks: Task[] = []
  const endsByZone = outline.zones.map((zone, zoneIndex) => {
    let before = entriesByZone[zoneIndex]!
    for (const job of jobs) {
      const lots = cleaningLots(outline, job, zone, before)
      tasks.push(...lots)
      before = lots.map((task) => task.key)
      if (job.dryingSeconds > 0) {
        const dry = dryTask(outline, job, zone, before)
        tasks.push(dry)
        before = [dry.key]
      }
    }
    return before
  })
  return { tasks, endsByZone }
}

/** How many tasks `cleanTasks` would make, without making them. */
export function cleanTaskCount(outline: TurnOutline): number {
  let count = 0
  for (const job of cleaningJobs(outline.input)) {
    for (const zone of outline.zones) count += lotCount(outline, job, zone) + (job.dryingSeconds > 0 ? 1 : 0)
  }
  return count
}

function lotCount({ input, lotSize }: TurnOutline, job: CleaningJob, zone: Zone): number {
  const rate = input.rates.cleaningPersonSecondsPerSquareMetre[job.method]
  return areaLotCount(workPersonSeconds(zone.areaSquareMetres * job.share * rate, input.policy), lotSize)
}

function cleaningLots(outline: TurnOutline, job: CleaningJob, zone: Zone, before: readonly string[]): Task[] {
  const { policy, rates } = outline.input
  const rate = rates.cleaningPersonSecondsPerSquareMetre[job.method]
  const jobSquareMetres = zone.areaSquareMetres * job.share
  const lots = lotCount(outline, job, zone)
  const squareMetres = jobSquareMetres / lots
  const work = workPersonSeconds(squareMetres * rate, policy)
  const cleanersMost = Math.min(
    CLEANERS_MOST_ON_A_LOT,
    Math.max(1, Math.floor(squareMetres / SQUARE_METRES_PER_CLEANER)),
  )
  const hands = Array.from({ length: cleanersMost }, (_, index) => index + 1)
  const modes = modesOfWork(work, hands, policy)
  const isWet = job.dryingSeconds > 0
  return Array.from(
    { length: lots },
    (_, index): Task => ({
      ...wholeFloorTask(outline, zone),
      key: `clean/${job.method}/zone-${zone.number}/${index + 1}`,
      kind: 'clean',
      text: taskText([
        `${CLEANING_PHRASE[job.method]} ${floorText(job, lots, index)} in ${zoneName(outline, zone)}, about ${Math.ceil(squareMetres)} m²${outline.staysAsItIs ? ', around what stands' : ''}.`,
        isWet ? 'Work backwards towards the way out.' : 'Work towards the way out and pick up what is left.',
        peopleText(modes),
      ]),
      workPersonSeconds: work,
      modes,
      after: [...before],
      safetyNotes: isWet ? [WET_FLOOR] : [],
    }),
  )
}

function floorText({ method, share }: CleaningJob, lots: number, index: number): string {
  const hardOrAll = share < 1 ? 'the hard floor' : 'the floor'
  const floor = method === 'vacuum' ? 'the carpet' : hardOrAll
  return lots === 1 ? floor : `part ${index + 1} of ${lots} of ${floor}`
}

function dryTask(outline: TurnOutline, job: CleaningJob, zone: Zone, before: readonly string[]): Task {
  return {
    ...wholeFloorTask(outline, zone),
    key: `dry/zone-${zone.number}`,
    kind: 'dry',
    text: taskText([
      `Keep everybody off ${zoneName(outline, zone)} until the floor is dry, about ${durationText(job.dryingSeconds)}.`,
      'Nobody has to stay; open doors or a fan help.',
    ]),
    workPersonSeconds: 0,
    modes: [{ hands: 0, seconds: job.dryingSeconds }],
    after: [...before],
    safetyNotes: [WET_FLOOR],
  }
}

function wholeFloorTask(
  outline: TurnOutline,
  zone: Zone,
): Pick<
  Task,
  | 'zone'
  | 'count'
  | 'furnishingId'
  | 'equipmentId'
  | 'fromPlace'
  | 'toPlace'
  | 'skill'
  | 'adultsOnly'
  | 'uses'
> {
  return {
    zone: zone.number,
    count: null,
    furnishingId: null,
    equipmentId: null,
    fromPlace: null,
    toPlace: zonePlace(outline, zone),
    skill: null,
    adultsOnly: false,
    uses: [],
  }
}
