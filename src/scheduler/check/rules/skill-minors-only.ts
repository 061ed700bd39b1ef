import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { demandsOnMinors } from '../skill-demand.ts'

export const skillMinorsOnly = (reading: SetupReading): Found[] =>
  demandsOnMinors(reading).map(({ skill, device, field }) => ({
    code: 'skill-minors-only',
    about: aboutRow('equipment', device),
    message: `only minors have the skill ${skill}, which is for adults and which the ${device.name} asks for`,
    fix: 'give the skill to an adult who is qualified',
    field,
  }))
