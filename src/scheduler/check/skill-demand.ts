/** Skills that devices ask for between layouts, and who has them. */
import type { Equipment } from '../../domain/equipment.ts'
import type { Person } from '../../domain/person.ts'
import type { Shift } from '../../domain/shift.ts'
import type { LocalDate, Skill } from '../../domain/units.ts'
import { homeSetting, sameSetting } from '../network/equipment-setting.ts'
import { counted } from '../wording/counted.ts'
import { deviceUses, distinctSettings, stepsUsed } from './device-use.ts'
import type { SetupReading } from './setup-reading.ts'
import { shiftIsOver } from './shift-life.ts'

export interface SkillDemand {
  readonly skill: Skill
  /** The first one by id that asks for it. */
  readonly device: Equipment
  /** How many others do. */
  readonly others: number
  /** Where the first one names it. */
  readonly field: string
}

/** By skill. Only what a layout makes somebody do counts: steps that no layout leads to need nobody. */
export function skillDemands(reading: SetupReading): SkillDemand[] {
  const demands = new Map<Skill, { device: Equipment; field: string; all: Set<Equipment> }>()
  for (const device of reading.setup.equipment) {
    for (const { skill, field } of skillsAsked(reading, device)) {
      const demand = demands.get(skill)
      if (demand) demand.all.add(device)
      else demands.set(skill, { device, field, all: new Set([device]) })
    }
  }
  return [...demands]
    .map(([skill, { device, field, all }]) => ({ skill, device, others: all.size - 1, field }))
    .sort((a, b) => (a.skill < b.skill ? -1 : 1))
}

function skillsAsked(reading: SetupReading, device: Equipment): { skill: Skill; field: string }[] {
  const { control, readinessCheck } = device
  const uses = deviceUses(reading, device)
  const asked: { skill: Skill; field: string }[] = []
  if (control.kind === 'states') {
    for (const step of stepsUsed(device, uses)) {
      const field = `/control/transitions/${control.transitions.indexOf(step)}/skill`
      if (step.skill !== null) asked.push({ skill: step.skill, field })
    }
  } else if (control.skill !== null && distinctSettings(uses).length > 1) {
    asked.push({ skill: control.skill, field: '/control/skill' })
  }
  const isChecked = uses.some(({ setting }) => !sameSetting(setting, homeSetting(device)))
  if (readinessCheck?.skill && isChecked) {
    asked.push({ skill: readinessCheck.skill, field: '/readinessCheck/skill' })
  }
  return asked
}

export interface SkillHolders {
  /** With the skill in force today. */
  readonly people: readonly Person[]
  /** Of unnamed hands, not over yet. */
  readonly shifts: readonly Shift[]
}

export function skillHolders(reading: SetupReading, skill: Skill): SkillHolders {
  const { setup, today } = reading
  return {
    people: setup.people.filter((person) => holdsSkill(person, skill, today)),
    shifts: setup.shifts.filter(
      (shift) =>
        shift.crew.kind === 'hands' && shift.crew.skills.includes(skill) && !shiftIsOver(shift, reading),
    ),
  }
}

/** Skills for adults that a device asks for, with holders who are all minors. */
export function demandsOnMinors(reading: SetupReading): SkillDemand[] {
  const forAdults = new Set(reading.setup.policy.adultOnlySkills)
  return skillDemands(reading).filter(({ skill }) => {
    const { people, shifts } = skillHolders(reading, skill)
    return (
      forAdults.has(skill) &&
      people.length + shifts.length > 0 &&
      people.every(({ adult }) => !adult) &&
      shifts.every(({ crew }) => crew.kind === 'hands' && !crew.adults)
    )
  })
}

function holdsSkill({ skills, skillDates }: Person, skill: Skill, date: LocalDate): boolean {
  if (!skills.includes(skill)) return false
  const dates = skillDates.filter((one) => one.skill === skill)
  return (
    dates.length === 0 ||
    dates.some(
      ({ firstDate, lastDate }) =>
        (firstDate === null || firstDate <= date) && (lastDate === null || lastDate >= date),
    )
  )
}

/** `the sound desk asks for`, `the sound desk and 2 more devices ask for` */
export const askedForBy = ({ device, others }: SkillDemand): string =>
  others === 0
    ? `the ${device.name} asks for`
    : `the ${device.name} and ${counted(others, 'more device')} ask for`
