/** What is done to the floor and to what stands on it: wiping, cleaning, drying, marking, lining up. */
import type { CleaningMethod } from '../../../domain/cleaning-method.ts'
import type { UnitSystem } from '../../../domain/site.ts'
import type { Task } from '../../../domain/task.ts'
import { counted } from '../../wording/counted.ts'
import { listText } from '../../wording/list-text.ts'
import { areaText, durationText, peopleText, taskText } from './words.ts'

const CLEANING_PHRASE: Readonly<Record<CleaningMethod, string>> = {
  'dust-mop': 'Dust-mop',
  sweep: 'Sweep',
  vacuum: 'Vacuum',
  'spot-mop': 'Mop the stains and spills on',
  'wet-mop': 'Wet-mop',
}

export interface CleaningWords {
  readonly method: CleaningMethod
  /** The method is for a part of the floor only: the hard part. */
  readonly isForAPart: boolean
  readonly isWet: boolean
  readonly lot: number
  readonly lots: number
  readonly squareMetres: number
  readonly zone: string
  readonly aroundWhatStands: boolean
  readonly units: UnitSystem
}

export function cleaningText(words: CleaningWords, modes: Task['modes']): string {
  const around = words.aroundWhatStands ? ', around what stands' : ''
  return taskText([
    `${CLEANING_PHRASE[words.method]} ${floorText(words)} in ${words.zone}, about ${areaText(words.squareMetres, words.units)}${around}.`,
    words.isWet
      ? 'Work backwards towards the way out.'
      : 'Work towards the way out and pick up what is left.',
    peopleText(modes),
  ])
}

function floorText({ method, isForAPart, lot, lots }: CleaningWords): string {
  const hardOrAll = isForAPart ? 'the hard floor' : 'the floor'
  const floor = method === 'vacuum' ? 'the carpet' : hardOrAll
  return lots === 1 ? floor : `part ${lot} of ${lots} of ${floor}`
}

export const dryingText = (zone: string, seconds: number): string =>
  taskText([
    `Keep everybody off ${zone} until the floor is dry, about ${durationText(seconds)}.`,
    'Nobody has to stay; open doors or a fan help.',
  ])

export const wipeText = (tables: number, zone: string, modes: Task['modes']): string =>
  taskText([
    `Wipe down ${counted(tables, 'table')} in ${zone} with the cleaner and clean cloths from the bus trolley.`,
    'Leave the cleaner on as long as its label says.',
    peopleText(modes),
  ])

/**
 * @param marks         1 or more
 * @param rowsOfChairs  chairs of the rows that all the marks are for; null: other things are marked as well
 */
export const markOutText = (
  marks: number,
  zone: string,
  layout: string,
  rowsOfChairs: number | null,
  modes: Task['modes'],
): string =>
  taskText([
    rowsOfChairs === null
      ? `Mark with tape where things go in ${zone}, by the plan of ${layout}: ${counted(marks, 'mark')}.`
      : `Mark with tape where ${rowsText(marks, rowsOfChairs)} in ${zone}, by the plan of ${layout}.`,
    KEEP_WAYS_OPEN,
    peopleText(modes),
  ])

/** Of what is built where the plan has it, whichever zone that is. */
export const markThingsText = (
  marks: number,
  things: readonly string[],
  room: string,
  layout: string,
  modes: Task['modes'],
): string =>
  taskText([
    `Mark with tape where the ${listText(things)} go in ${room}, by the plan of ${layout}: ${counted(marks, 'mark')}.`,
    KEEP_WAYS_OPEN,
    peopleText(modes),
  ])

const KEEP_WAYS_OPEN = 'Keep ways to the exits and aisles open.'

function rowsText(rows: number, chairs: number): string {
  if (chairs === 1) return 'the chair goes'
  return rows === 1 ? 'the row of chairs goes' : `the ${rows} rows of chairs go`
}

export const alignText = (chairs: number, zone: string, modes: Task['modes']): string =>
  taskText([
    chairs === 1
      ? `Put the chair in ${zone} in line with its row.`
      : `Line up the rows of ${chairs} chairs in ${zone} and count them.`,
    'Aisles straight and open to the exits.',
    peopleText(modes),
  ])
