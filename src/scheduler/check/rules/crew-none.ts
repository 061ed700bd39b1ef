import { aboutRow, type Found } from '../found.ts'
import { DUTY_DAYS, type SetupReading } from '../setup-reading.ts'

export function crewNone({ setup, lanes }: SetupReading): Found[] {
  if (lanes.length > 0) return []
  return [
    {
      code: 'crew-none',
      about: aboutRow('policy', { id: setup.policy.id, name: 'crew' }),
      message: `nobody is on duty in the next ${DUTY_DAYS} days`,
      fix: 'add shifts: for people, or for a number of hands',
      field: null,
    },
  ]
}
