/** Marking where things go before they are set, and lining up rows of chairs when they stand. */
import type { Task, TaskKey } from '../../domain/task.ts'
import type { TurnOutline, ZoneStep } from './outline.ts'
import { zoneName, zonePlace } from './outline.ts'
import { givenNumber, singleRate, term } from './reckoned-numbers.ts'
import { EXITS_CLEAR } from './safety-notes.ts'
import { alignText, markOutText, markThingsText } from './task-catalogue/floor-texts.ts'
import { handsOnPieces } from './work-content.ts'
import { handsUpTo, workTask } from './work-task.ts'

/** One holds the tape, one reads the plan. */
const MARKERS_MOST = 2

/**
 * A mark for each table, deck, post or row of chairs that is set in the zone; none where nothing is. What is only likely
 * to stand in the zone is marked in a task that names no zone.
 */
export const markOutStep =
  (outline: TurnOutline): ZoneStep =>
  (zone, zoneIndex, before) => {
    const { input, jobs } = outline
    const marks = jobs.marks[zoneIndex]!
    const marksGuessed = jobs.marksGuessed[zoneIndex]!
    const chairs = jobs.rowChairsSet[zoneIndex]!
    const rowsOfChairs = marks === jobs.rowsSet[zoneIndex] ? chairs : null
    const layout = input.toLayout.name
    return [
      ...markTasks(
        outline,
        marks,
        `zone-${zone.number}`,
        zone.number,
        zonePlace(outline, zone),
        before,
        (modes) => markOutText(marks, zoneName(outline, zone), layout, rowsOfChairs, modes),
      ),
      ...markTasks(outline, marksGuessed, `room-${zone.number}`, null, input.room.name, before, (modes) =>
        markThingsText(marksGuessed, jobs.guessedNames, input.room.name, layout, modes),
      ),
    ]
  }

function markTasks(
  outline: TurnOutline,
  marks: number,
  name: string,
  zone: number | null,
  place: string,
  before: readonly TaskKey[],
  text: (modes: Task['modes']) => string,
): Task[] {
  if (marks === 0) return []
  const { input } = outline
  return [
    workTask(outline, {
      key: `mark-out/${name}`,
      kind: 'mark-out',
      zone,
      count: marks,
      furnishingId: null,
      fromPlace: null,
      toPlace: place,
      practisedPersonSeconds: marks * input.rates.markOutPersonSecondsPerPiece,
      hands: handsUpTo(Math.min(MARKERS_MOST, marks)),
      text,
      terms: () => [
        term('marking', [
          givenNumber(
            'marks',
            marks,
            'pieces',
            'Tables, decks and posts that are set, and a mark for each row of chairs',
          ),
          singleRate(
            input,
            'marking where one goes',
            'person-seconds per piece',
            'markOutPersonSecondsPerPiece',
          ),
        ]),
      ],
      adultsOnly: false,
      uses: [],
      after: before,
      safetyNotes: [EXITS_CLEAR],
      // Where nobody has said where each thing goes, marks are a help and no measure. Common practice, no source.
      optional: input.toLayout.placements.length === 0,
    }),
  ]
}

/** The chairs that were set in rows; none at tables or along the wall. */
export const alignStep =
  (outline: TurnOutline): ZoneStep =>
  (zone, zoneIndex, before) => {
    const { input, jobs } = outline
    const chairs = jobs.rowChairsSet[zoneIndex]!
    if (chairs === 0) return []
    return [
      workTask(outline, {
        key: `set/align-rows/zone-${zone.number}`,
        kind: 'set',
        zone: zone.number,
        count: chairs,
        furnishingId: null,
        fromPlace: null,
        toPlace: zonePlace(outline, zone),
        practisedPersonSeconds: chairs * input.rates.alignPersonSecondsPerChair,
        hands: handsOnPieces(1, chairs, 2),
        text: (modes) => alignText(chairs, zoneName(outline, zone), modes),
        terms: () => [
          term('lining up', [
            givenNumber('chairs', chairs, 'pieces', 'What is set in rows; those that stay stand in line'),
            singleRate(
              input,
              'lining up and counting one',
              'person-seconds per piece',
              'alignPersonSecondsPerChair',
            ),
          ]),
        ],
        adultsOnly: false,
        uses: [],
        after: before,
        safetyNotes: [EXITS_CLEAR],
        // It looks better: common practice, no source.
        optional: true,
      }),
    ]
  }

/** How many tasks the two steps would make. */
export const markAndAlignTaskCount = ({ jobs }: TurnOutline): number =>
  [...jobs.marks, ...jobs.marksGuessed].filter((marks) => marks > 0).length +
  jobs.rowChairsSet.filter((chairs) => chairs > 0).length
