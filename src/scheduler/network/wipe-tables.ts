/** Wiping the tables that stand, after food. */
import type { Task, TaskKey } from '../../domain/task.ts'
import { type TurnOutline, zoneName, zonePlace } from './outline.ts'
import { givenNumber, singleRate, term } from './reckoned-numbers.ts'
import { wipeText } from './task-catalogue/floor-texts.ts'
import { handsUpTo, workTask } from './work-task.ts'
import type { Zone } from './zones.ts'

/** More get in each other's way. Common practice, no source. */
const WIPERS_MOST = 2

export function wipeTasks(
  outline: TurnOutline,
  zone: Zone,
  zoneIndex: number,
  before: readonly TaskKey[],
): Task[] {
  const tables = outline.jobs.tablesToWipe[zoneIndex]!
  if (tables === 0) return []
  const { input } = outline
  const rate = input.rates.wipeTablePersonSeconds
  return [
    workTask(outline, {
      key: `bus/wipe-tables/zone-${zone.number}`,
      kind: 'bus',
      zone: zone.number,
      count: tables,
      furnishingId: null,
      fromPlace: null,
      toPlace: zonePlace(outline, zone),
      practisedPersonSeconds: tables * rate,
      hands: handsUpTo(Math.min(WIPERS_MOST, tables)),
      text: (modes) => wipeText(tables, zoneName(outline, zone), modes),
      terms: () => [
        term('wiping', [
          givenNumber('tables that stand', tables, 'pieces', 'What stands'),
          singleRate(input, 'wiping one table', 'person-seconds per piece', 'wipeTablePersonSeconds'),
        ]),
      ],
      adultsOnly: false,
      uses: [],
      after: before,
      safetyNotes: [],
    }),
  ]
}
