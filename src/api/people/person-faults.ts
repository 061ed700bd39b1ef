/** What can be wrong with a member of the crew beyond the shape. */
import type { Person } from '../../domain/person.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { repeated } from '../known-ids.ts'
import { bodyFault, type Fault } from '../problems.ts'
import { yearFault } from '../setup/year-fault.ts'

export const personFaults = (person: Person, { policy }: SiteSetup): Fault[] => [
  ...repeated((index) => `/skills/${index}`, person.skills, 'skill'),
  ...(person.adult
    ? []
    : adultSkillFaults((index) => `/skills/${index}`, person.skills, policy.adultOnlySkills)),
  ...skillDateFaults(person),
]

/** For skills of somebody who is a minor, or may be one. */
export const adultSkillFaults = (
  at: (index: number) => string,
  skills: readonly string[],
  adultOnlySkills: readonly string[],
): Fault[] =>
  skills.flatMap((skill, index) =>
    adultOnlySkills.includes(skill)
      ? [
          bodyFault(
            at(index),
            `${skill} is for adults only by the policy of the site; a minor cannot have it`,
          ),
        ]
      : [],
  )

function skillDateFaults({ skills, skillDates }: Person): Fault[] {
  const named = skillDates.map(({ skill }) => skill)
  return [
    ...repeated((index) => `/skillDates/${index}/skill`, named, 'skill'),
    ...skillDates.flatMap(({ skill, firstDate, lastDate }, index) => {
      const at = `/skillDates/${index}`
      return [
        ...(skills.includes(skill)
          ? []
          : [bodyFault(`${at}/skill`, `${skill} is none of the skills of this person; add it to them`)]),
        ...(firstDate !== null && lastDate !== null && lastDate < firstDate
          ? [bodyFault(`${at}/lastDate`, `the last day must not be before the first, ${firstDate}`)]
          : []),
        ...yearFault(`${at}/firstDate`, firstDate),
        ...yearFault(`${at}/lastDate`, lastDate),
      ]
    }),
  ]
}
