/** Who the fewest hands must be: skills are taken from one after the other, as long as the turn is ready without. */
import type { SkillMix } from '../../domain/hands-curve.ts'
import { ADULT, CREW } from '../decide/plan/activities-of.ts'
import type { TurnInstance } from '../turn/index.ts'
import type { InstanceAround } from './instance-around.ts'
import { boundTickOf, instantOf, reachesMilestones, readyTickOf, turnsOf } from './ready.ts'
import type { Search } from './search.ts'

/** Searches at most for one mix; what is left then is kept. */
const TRIALS_MOST = 40

/**
 * Skills in alphabetical order, being grown up last; from each the last of the hands first. Nobody of those left with a
 * skill can be without it, the others as they are, as far as plans were found.
 * @param instance  the turn with these hands, who have it ready at `readyTick`, and so by then
 * @param people    of each pair of hands its lanes in the instance; a group that helps is not among them
 */
export function skillMix(
  around: InstanceAround,
  instance: TurnInstance,
  people: readonly (readonly number[])[],
  { byTick, readyTick }: { readonly byTick: number; readonly readyTick: number },
  search: Search,
): SkillMix {
  const { skills: names } = around.built
  let readyWithTick = readyTick
  let current = instance
  let trials = 0
  let isSearched = true
  const handsWith = (name: string): number => {
    const bit = 1 << names.indexOf(name)
    const hasIt = (lanes: readonly number[]) =>
      lanes.some((lane) => (current.lanes[lane]!.skillMask & bit) !== 0)
    for (const lanes of people.filter(hasIt).reverse()) {
      if (trials >= TRIALS_MOST) {
        isSearched = false
        break
      }
      trials += 1
      const without = withoutSkill(current, lanes, bit)
      const tick = readyByTick(around, without, byTick, search)
      if (tick === null) continue
      current = without
      readyWithTick = tick
    }
    return people.filter(hasIt).length
  }
  const isNamed = (name: string) => name !== ADULT && name !== CREW && !name.startsWith('helps:')
  const skills = names
    .filter(isNamed)
    .map((skill) => ({ skill, hands: handsWith(skill) }))
    .filter(({ hands }) => hands > 0)
  const adults = handsWith(ADULT)
  return { skills, adults, readyAt: instantOf(around, readyWithTick), isSearched }
}

const withoutSkill = (instance: TurnInstance, lanes: readonly number[], bit: number): TurnInstance => ({
  ...instance,
  lanes: instance.lanes.map((lane, index) =>
    lanes.includes(index) ? { ...lane, skillMask: lane.skillMask & ~bit } : lane,
  ),
})

/** null: no plan was found that is ready by then. */
function readyByTick(
  around: InstanceAround,
  instance: TurnInstance,
  byTick: number,
  search: Search,
): number | null {
  const boundTick = boundTickOf(around, instance)
  if (boundTick === null || boundTick > byTick) return null
  const own = new Set(turnsOf(around))
  const soonEnough = instance.turns.map(({ dueTick }, turn) => {
    if (turn === around.part.turn) return byTick
    return own.has(turn) ? Math.min(dueTick, byTick) : dueTick
  })
  const { schedule } = search.find(instance, soonEnough)
  if (schedule === null || !reachesMilestones(around, schedule)) return null
  const tick = readyTickOf(around, schedule)
  return tick <= byTick ? tick : null
}
