import { dateAfter } from '../../timeline/wall-time.ts'
import { aboutRow, type Found } from '../found.ts'
import { lastSkillDays } from '../last-skill-days.ts'
import type { SetupReading } from '../setup-reading.ts'

/** Common practice, no source: a month is time enough to book a course. */
const DAYS_AHEAD = 30

export function skillExpiresSoon(reading: SetupReading): Found[] {
  const { today } = reading
  return lastSkillDays(reading)
    .filter(({ lastDate }) => lastDate >= today && lastDate <= dateAfter(today, DAYS_AHEAD))
    .map(({ person, name, skill, lastDate, field }) => ({
      code: 'skill-expires-soon',
      about: aboutRow('person', { id: person.id, name }),
      message: `the skill ${skill} of ${name} ends on ${lastDate}`,
      fix: 'have it renewed and enter the new last day',
      field,
    }))
}
