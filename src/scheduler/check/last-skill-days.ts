import type { Person } from '../../domain/person.ts'
import type { LocalDate, Skill } from '../../domain/units.ts'
import type { SetupReading } from './setup-reading.ts'
import { shiftIsOver } from './shift-life.ts'

export interface LastSkillDay {
  readonly person: Person
  readonly name: string
  readonly skill: Skill
  readonly lastDate: LocalDate
  readonly field: string
}

/** When a skill ends for good, for everybody on a shift that is not over; one that is renewed counts by its last end. */
export function lastSkillDays(reading: SetupReading): LastSkillDay[] {
  const { setup, nameOf } = reading
  const onShift = new Set(
    setup.shifts.flatMap((shift) =>
      shift.crew.kind === 'person' && !shiftIsOver(shift, reading) ? shift.crew.personId : [],
    ),
  )
  return setup.people
    .filter(({ id }) => onShift.has(id))
    .flatMap((person) =>
      [...new Set(person.skills)].flatMap((skill) => {
        const dated = person.skillDates
          .map((dates, index) => ({ ...dates, index }))
          .filter((dates) => dates.skill === skill)
        let last: { lastDate: LocalDate; index: number } | null = null
        for (const { lastDate, index } of dated) {
          if (lastDate === null) return []
          if (!last || lastDate > last.lastDate) last = { lastDate, index }
        }
        if (!last) return []
        const field = `/skillDates/${last.index}/lastDate`
        return [{ person, name: nameOf(person.id), skill, lastDate: last.lastDate, field }]
      }),
    )
}
