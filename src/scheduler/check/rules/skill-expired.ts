import { aboutRow, type Found } from '../found.ts'
import { lastSkillDays } from '../last-skill-days.ts'
import type { SetupReading } from '../setup-reading.ts'

export function skillExpired(reading: SetupReading): Found[] {
  return lastSkillDays(reading)
    .filter(({ lastDate }) => lastDate < reading.today)
    .map(({ person, name, skill, lastDate, field }) => ({
      code: 'skill-expired',
      about: aboutRow('person', { id: person.id, name }),
      message: `the skill ${skill} of ${name} ended on ${lastDate}`,
      fix: 'enter the new last day once it is renewed, or take the skill off',
      field,
    }))
}
