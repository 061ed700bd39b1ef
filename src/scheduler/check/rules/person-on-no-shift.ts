import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Silent while nobody at all is on duty: that is said once. */
export function personOnNoShift({ setup, lanes, nameOf }: SetupReading): Found[] {
  if (lanes.length === 0) return []
  const onShift = new Set(setup.shifts.flatMap(({ crew }) => (crew.kind === 'person' ? crew.personId : [])))
  return setup.people
    .filter(({ id }) => !onShift.has(id))
    .map(({ id }) => ({
      code: 'person-on-no-shift',
      about: aboutRow('person', { id, name: nameOf(id) }),
      message: `${nameOf(id)} is on no shift, so no plan counts on them`,
      fix: 'add a shift for them, or take them off the crew',
      field: null,
    }))
}
