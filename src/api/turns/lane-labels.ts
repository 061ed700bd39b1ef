/** What a pair of hands is called on a task list: by name, or as the k-th hand of a shift. */
import type { LaneId } from '../../domain/ids.ts'
import type { PersonDetails } from '../../domain/person.ts'
import type { Shift } from '../../domain/shift.ts'

export type LaneLabel = (laneId: LaneId) => string

/** A name that was erased leaves the id. */
export function laneLabels(details: readonly PersonDetails[], shifts: readonly Shift[]): LaneLabel {
  const names = new Map<string, string>(details.map(({ personId, name }) => [personId, name]))
  const shiftNames = new Map<string, string>(shifts.map(({ id, name }) => [id, name]))
  return (laneId) => {
    const [id = '', hand] = laneId.split('#')
    if (hand === undefined) return names.get(id) ?? id
    return `${shiftNames.get(id) ?? id} hand ${hand}`
  }
}
