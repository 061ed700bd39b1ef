import { someText } from '../../wording/list-text.ts'
import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { shiftIsOver } from '../shift-life.ts'
import { skillDemands, skillHolders } from '../skill-demand.ts'

/** Silent while nobody at all is on duty: that is said once. */
export function skillOffDuty(reading: SetupReading): Found[] {
  const { setup, lanes, nameOf } = reading
  if (lanes.length === 0) return []
  const onShift = new Set(
    setup.shifts.flatMap((shift) =>
      shift.crew.kind === 'person' && !shiftIsOver(shift, reading) ? shift.crew.personId : [],
    ),
  )
  return skillDemands(reading).flatMap((demand): Found[] => {
    const { people, shifts } = skillHolders(reading, demand.skill)
    if (shifts.length > 0 || people.length === 0) return []
    if (people.some(({ id }) => onShift.has(id))) return []
    const names = someText(people.map(({ id }) => nameOf(id)))
    return [
      {
        code: 'skill-off-duty',
        about: aboutRow('equipment', demand.device),
        message: `nobody with the skill ${demand.skill} is on a shift: only ${names} ${people.length === 1 ? 'has' : 'have'} it`,
        fix: 'add a shift for one of them',
        field: demand.field,
      },
    ]
  })
}
