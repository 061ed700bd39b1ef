/** What can be wrong with a device beyond its shape: above all, states it can never be brought to or back from. */
import type { Equipment, LevelControl, StatesControl } from '../../domain/equipment.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { levelProblem, reachableStates } from '../../scheduler/network/index.ts'
import { repeated, unknownIds } from '../known-ids.ts'
import { bodyFault, type Fault } from '../problems.ts'

export function equipmentFaults(equipment: Equipment, setup: SiteSetup): Fault[] {
  const at = (index: number) => `/sectionIds/${index}`
  const { control } = equipment
  return [
    ...unknownIds(at, equipment.sectionIds, setup.sections, 'section'),
    ...repeated(at, equipment.sectionIds, 'section'),
    ...(control.kind === 'states' ? statesFaults(control) : levelFaults(control)),
    ...skillFaults(equipment, setup),
  ]
}

/** The solver tells skills apart by the bits of a whole number of 32. */
const SKILLS_MOST = 24

function skillFaults(equipment: Equipment, setup: SiteSetup): Fault[] {
  const skills = new Set([...setup.equipment, equipment].flatMap(({ control }) => skillsAsked(control)))
  if (skills.size <= SKILLS_MOST) return []
  const message = `with this device the site would ask for ${skills.size} different skills, and ${SKILLS_MOST} is the most; use one of those it has`
  return [bodyFault('/control', message)]
}

function skillsAsked(control: Equipment['control']): string[] {
  const asked = control.kind === 'level' ? [control] : control.transitions
  return asked.flatMap(({ skill }) => skill ?? [])
}

function statesFaults(control: StatesControl): Fault[] {
  const names = namesFaults(control)
  // Ways can only be judged once every name means something.
  return names.length > 0 ? names : wayFaults(control)
}

function namesFaults({ states, homeState, transitions }: StatesControl): Fault[] {
  const known = (state: string) => states.includes(state)
  const unknown = (at: string, state: string) =>
    bodyFault(at, `${state} is none of the states of this device`)
  return [
    ...repeated((index) => `/control/states/${index}`, states, 'state'),
    ...(known(homeState) ? [] : [unknown('/control/homeState', homeState)]),
    ...transitions.flatMap(({ from, to }, index) => {
      const at = `/control/transitions/${index}`
      if (from === to) return [bodyFault(at, `it goes from ${from} to itself; leave it out`)]
      return [
        ...(known(from) ? [] : [unknown(`${at}/from`, from)]),
        ...(known(to) ? [] : [unknown(`${at}/to`, to)]),
      ]
    }),
  ]
}

function wayFaults(control: StatesControl): Fault[] {
  const { states, homeState } = control
  const fromHome = new Set(reachableStates(control, homeState))
  const noWay = (from: string, to: string) =>
    bodyFault(
      '/control/transitions',
      `there is no way from ${from} to ${to}; add the transitions that lead there`,
    )
  return states
    .filter((state) => state !== homeState)
    .flatMap((state) => [
      ...(fromHome.has(state) ? [] : [noWay(homeState, state)]),
      ...(reachableStates(control, state).includes(homeState) ? [] : [noWay(state, homeState)]),
    ])
}

function levelFaults(control: LevelControl): Fault[] {
  const { lowestPercent, highestPercent, homeSetting } = control
  if (lowestPercent > highestPercent) {
    const message = `the highest level, ${highestPercent} %, is under the lowest, ${lowestPercent} %; swap them`
    return [bodyFault('/control/highestPercent', message)]
  }
  const problem = levelProblem(control, homeSetting)
  return problem === null ? [] : [bodyFault('/control/homeSetting', problem)]
}
