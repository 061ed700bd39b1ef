/** Cleaning the floor after a use, zone by zone, and the time a mopped floor needs to dry. */
import type { Task, TaskKey } from '../../domain/task.ts'
import type { CleaningJob } from './cleaning-methods.ts'
import { cleaningJobs } from './cleaning-methods.ts'
import { fixedTask } from './fixed-task.ts'
import { areaLotCount } from './lots.ts'
import type { TurnOutline, ZoneStep } from './outline.ts'
import { zoneName, zonePlace } from './outline.ts'
import { computedNumber, givenNumber, ratedNumber, term } from './reckoned-numbers.ts'
import { WET_FLOOR } from './safety-notes.ts'
import { cleaningText, dryingText } from './task-catalogue/floor-texts.ts'
import { areaText } from './task-catalogue/words.ts'
import { toolOfCleaning, toolUsePerHand } from './tool-use.ts'
import { workPersonSeconds } from './work-content.ts'
import { handsUpTo, workTask } from './work-task.ts'
import type { Zone } from './zones.ts'

/** Floor for one cleaner; more on it get in each other's way. Common practice, no source. */
const SQUARE_METRES_PER_CLEANER = 30
const CLEANERS_MOST_ON_A_LOT = 4

/** One method after the other in each zone, each after all lots of the one before; drying follows a mop at once. */
export const cleanSteps = (outline: TurnOutline): ZoneStep[] =>
  cleaningJobs(outline.input).flatMap((job): ZoneStep[] => [
    (zone, _, before) => cleaningLots(outline, job, zone, before),
    (zone, _, before) => (job.dryingSeconds > 0 ? [dryTask(outline, job, zone, before)] : []),
  ])

/** How many tasks `cleanSteps` would make, without making them. */
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

/** Each cleaner holds a tool where the site has some for the method, so there are no more cleaners than those. */
function cleaningLots(
  outline: TurnOutline,
  job: CleaningJob,
  zone: Zone,
  before: readonly TaskKey[],
): Task[] {
  const { input } = outline
  const { method } = job
  const rate = input.rates.cleaningPersonSecondsPerSquareMetre[method]
  const lots = lotCount(outline, job, zone)
  const squareMetres = (zone.areaSquareMetres * job.share) / lots
  const tool = toolOfCleaning(input, method)
  const cleanersMost = Math.min(
    CLEANERS_MOST_ON_A_LOT,
    squareMetres / SQUARE_METRES_PER_CLEANER,
    tool?.countOwned ?? CLEANERS_MOST_ON_A_LOT,
  )
  const isWet = job.dryingSeconds > 0
  return Array.from({ length: lots }, (_, index) =>
    workTask(outline, {
      key: `clean/${method}/zone-${zone.number}/${index + 1}`,
      kind: 'clean',
      zone: zone.number,
      count: null,
      furnishingId: null,
      fromPlace: null,
      toPlace: zonePlace(outline, zone),
      practisedPersonSeconds: squareMetres * rate,
      hands: handsUpTo(cleanersMost),
      text: (modes) =>
        cleaningText(
          {
            method,
            isForAPart: job.share < 1,
            isWet,
            lot: index + 1,
            lots,
            squareMetres,
            zone: zoneName(outline, zone),
            aroundWhatStands: outline.jobs.mostStays[zone.number - 1]!,
            units: input.units,
          },
          modes,
        ),
      terms: () => [
        term('cleaning', [
          computedNumber(
            'floor',
            squareMetres,
            'square metres',
            `A part of the ${areaText(input.areaSquareMetres, input.units)} of ${input.room.name}`,
          ),
          ratedNumber(
            input,
            'cleaning a square metre',
            rate,
            'person-seconds per square metre',
            `cleaningPersonSecondsPerSquareMetre.${method}`,
          ),
        ]),
      ],
      adultsOnly: false,
      uses: tool ? [toolUsePerHand(tool)] : [],
      after: before,
      safetyNotes: isWet ? [WET_FLOOR] : [],
    }),
  )
}

function dryTask(outline: TurnOutline, job: CleaningJob, zone: Zone, before: readonly TaskKey[]): Task {
  const seconds = job.dryingSeconds
  return fixedTask(outline, {
    key: `dry/zone-${zone.number}`,
    kind: 'dry',
    zone: zone.number,
    text: dryingText(zoneName(outline, zone), seconds),
    place: zonePlace(outline, zone),
    modes: [{ hands: 0, seconds }],
    after: before,
    safetyNotes: [WET_FLOOR],
    reckon: () => ({
      what: 'drying',
      seconds: ratedNumber(
        outline.input,
        'until the floor is dry',
        seconds,
        'seconds',
        `dryingSeconds.${job.dryingFloorKind}`,
      ),
      hands: givenNumber('people', 0, 'hands', 'It dries by itself'),
    }),
  })
}
