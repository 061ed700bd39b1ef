/** What a pair of hands is called on a task list: by name, or as the k-th hand of a shift. */
import { type LaneId, ShiftId } from '../../domain/ids.ts'
import type { PersonDetails } from '../../domain/person.ts'
import { shiftName } from '../../domain/setup-names.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'

export type LaneLabel = (laneId: LaneId) => string

/** A name that was erased leaves the id. */
export function laneLabels(
  details: readonly PersonDetails[],
  setup: Pick<SiteSetup, 'shifts' | 'retired'>,
): LaneLabel {
  const names = new Map<string, string>(details.map(({ personId, name }) => [personId, name]))
  return (laneId) => {
    const [id = '', hand] = laneId.split('#')
    if (hand === undefined) return names.get(id) ?? id
    return `${shiftName(setup, ShiftId.parse(id))} hand ${hand}`
  }
}
