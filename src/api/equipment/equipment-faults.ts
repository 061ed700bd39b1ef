/** What can be wrong with a device beyond its shape: above all, states it can never be brought to or back from. */
import type { Equipment, LevelControl, StatesControl } from '../../domain/equipment.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { levelProblem, reachableStates } from '../../scheduler/network/index.ts'
import { repeated, unknownIds } from '../known-ids.ts'
import { bodyFault, type Fault } from '../problems.ts'
import { settingProblem } from './setting-problem.ts'

export function equipmentFaults(equipment: Equipment, setup: SiteSetup): Fault[] {
  const at = (index: number) => `/sectionIds/${index}`
  const { control } = equipment
  return [
    ...unknownIds(at, equipment.sectionIds, setup.sections, 'section', setup.retired.sections),
    ...repeated(at, equipment.sectionIds, 'section'),
    ...(control.kind === 'states' ? statesFaults(control) : levelFaults(control)),
    ...protectionFaults(equipment),
    ...standInFaults(equipment, setup),
    ...restrikeFaults(equipment),
    ...skillFaults(equipment, setup),
  ]
}

/** The solver tells skills apart by the bits of a whole number of 32. */
const SKILLS_MOST = 24

function skillFaults(equipment: Equipment, setup: SiteSetup): Fault[] {
  const others = setup.equipment.filter(({ id }) => id !== equipment.id)
  const skills = new Set([...others, equipment].flatMap(skillsAsked))
  if (skills.size <= SKILLS_MOST) return []
  const message = `with this device the site would ask for ${skills.size} different skills, and ${SKILLS_MOST} is the most; use one of those it has`
  return [bodyFault('/control', message)]
}

function skillsAsked({ control, readinessCheck }: Equipment): string[] {
  const asked = control.kind === 'level' ? [control] : control.transitions
  return [...asked, readinessCheck].flatMap((one) => one?.skill ?? [])
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

/** Each protects in a condition that the device can hold, and no kind of use is named twice. */
function protectionFaults(equipment: Equipment): Fault[] {
  const kindsSeen = new Set<string>()
  return equipment.protections.flatMap(({ during, setting }, index) => {
    const problem = settingProblem(equipment, setting)
    const twice = during.flatMap((kind, place) => {
      if (!kindsSeen.has(kind)) {
        kindsSeen.add(kind)
        return []
      }
      const message = `it says twice how the device is protected during ${kind}; say it once`
      return [bodyFault(`/protections/${index}/during/${place}`, message)]
    })
    return [...twice, ...(problem === null ? [] : [bodyFault(`/protections/${index}/setting`, problem)])]
  })
}

function standInFaults({ id, standInIds }: Equipment, setup: SiteSetup): Fault[] {
  const at = (index: number) => `/standInIds/${index}`
  const self = standInIds.indexOf(id)
  return [
    ...(self < 0 ? [] : [bodyFault(at(self), 'a device cannot stand in for itself; name another one')]),
    ...unknownIds(at, standInIds, [...setup.equipment, { id }], 'equipment', setup.retired.equipment),
    ...repeated(at, standInIds, 'equipment'),
  ]
}

function restrikeFaults({ control, kind, restrikeSeconds }: Equipment): Fault[] {
  if (restrikeSeconds === 0) return []
  if (kind !== 'lighting' && kind !== 'projection') {
    const message = `only a lamp has to cool before it is lit again: the kind must be lighting or projection, not ${kind}`
    return [bodyFault('/restrikeSeconds', message)]
  }
  return control.kind === 'level' && !control.canBeOff
    ? [bodyFault('/restrikeSeconds', 'this device is never off, so it is never lit again; leave it at 0')]
    : []
}
