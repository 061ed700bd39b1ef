import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { askedForBy, skillDemands, skillHolders } from '../skill-demand.ts'

export function skillNobody(reading: SetupReading): Found[] {
  return skillDemands(reading).flatMap((demand): Found[] => {
    const holders = skillHolders(reading, demand.skill)
    if (holders.people.length + holders.shifts.length > 0) return []
    return [
      {
        code: 'skill-nobody',
        about: aboutRow('equipment', demand.device),
        message: `nobody has the skill ${demand.skill}, which ${askedForBy(demand)}`,
        fix: 'give the skill to those who have it, or take it off where anybody may do the work',
        field: demand.field,
      },
    ]
  })
}
