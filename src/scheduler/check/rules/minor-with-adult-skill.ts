import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'
import { demandsOnMinors } from '../skill-demand.ts'

/** People, and unnamed hands that are not all adults. Where a device needs the skill and no adult has it, that says more. */
export function minorWithAdultSkill(reading: SetupReading): Found[] {
  const { setup, nameOf } = reading
  const said = new Set(demandsOnMinors(reading).map(({ skill }) => skill))
  const forAdults = new Set(setup.policy.adultOnlySkills.filter((skill) => !said.has(skill)))
  const fix = 'take the skill off, or off the list of skills for adults in the policy'
  const people = setup.people
    .filter(({ adult }) => !adult)
    .flatMap((person) =>
      person.skills.flatMap((skill, index): Found[] => {
        if (!forAdults.has(skill)) return []
        const name = nameOf(person.id)
        return [
          {
            code: 'minor-with-adult-skill',
            about: aboutRow('person', { id: person.id, name }),
            message: `${name} is a minor and has the skill ${skill}, which is for adults`,
            fix,
            field: `/skills/${index}`,
          },
        ]
      }),
    )
  const shifts = setup.shifts.flatMap((shift) => {
    const { crew } = shift
    if (crew.kind === 'person' || crew.adults) return []
    return crew.skills.flatMap((skill, index): Found[] =>
      forAdults.has(skill)
        ? [
            {
              code: 'minor-with-adult-skill',
              about: aboutRow('shift', shift),
              message: `the hands of shift ${shift.name} may be minors and have the skill ${skill}, which is for adults`,
              fix,
              field: `/crew/skills/${index}`,
            },
          ]
        : [],
    )
  })
  return [...people, ...shifts]
}
