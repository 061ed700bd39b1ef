/** Marking where things go before they are set, and lining up rows of chairs when they stand. */
import type { TurnOutline, ZoneStep } from './outline.ts'
import { zoneName, zonePlace } from './outline.ts'
import { givenNumber, singleRate, term } from './reckoned-numbers.ts'
import { EXITS_CLEAR } from './safety-notes.ts'
import { alignText, markOutText } from './task-catalogue/floor-texts.ts'
import { handsOnPieces } from './work-content.ts'
import { handsUpTo, workTask } from './work-task.ts'

/** One holds the tape, one reads the plan. */
const MARKERS_MOST = 2

/** A mark for each table, deck, post or row of chairs that is set in the zone; none where nothing is. */
export const markOutStep =
  (outline: TurnOutline): ZoneStep =>
  (zone, zoneIndex, before) => {
    const { input, jobs } = outline
    const marks = jobs.marks[zoneIndex]!
    if (marks === 0) return []
    const isForRowsOnly = marks === Math.ceil(jobs.rowChairsSet[zoneIndex]! / jobs.chairsToARow)
    return [
      workTask(outline, {
        key: `mark-out/zone-${zone.number}`,
        kind: 'mark-out',
        zone: zone.number,
        count: marks,
        furnishingId: null,
        fromPlace: null,
        toPlace: zonePlace(outline, zone),
        practisedPersonSeconds: marks * input.rates.markOutPersonSecondsPerPiece,
        hands: handsUpTo(Math.min(MARKERS_MOST, marks)),
        text: (modes) =>
          markOutText(marks, zoneName(outline, zone), input.toLayout.name, isForRowsOnly, modes),
        terms: () => [
          term('marking', [
            givenNumber(
              'marks',
              marks,
              'pieces',
              `Tables, decks and posts that are set, and a mark for each row of about ${jobs.chairsToARow} chairs`,
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
      }),
    ]
  }

/** All chairs of the rows in a zone in which any was set; none at tables or along the wall. */
export const alignStep =
  (outline: TurnOutline): ZoneStep =>
  (zone, zoneIndex, before) => {
    const { input, jobs } = outline
    const chairs = jobs.chairsToAlign[zoneIndex]!
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
            givenNumber('chairs', chairs, 'pieces', 'What the layout asks for in rows'),
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
      }),
    ]
  }

/** How many tasks the two steps would make. */
export const markAndAlignTaskCount = ({ jobs }: TurnOutline): number =>
  jobs.marks.filter((marks) => marks > 0).length + jobs.chairsToAlign.filter((chairs) => chairs > 0).length
