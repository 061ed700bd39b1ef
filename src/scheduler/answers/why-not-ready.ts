/** What so few hands cannot do, as far as one thing can be named. */
import type { WhyNotReady } from '../../domain/hands-curve.ts'
import { ADULT, CREW } from '../decide/plan/activities-of.ts'
import { lowerBoundTicks, type TurnInstance } from '../turn/index.ts'
import { counted } from '../wording/counted.ts'
import type { InstanceAround } from './instance-around.ts'

/** @param instance  the turn with so few hands, for which no plan is known */
export function whyNotReady({ built }: InstanceAround, instance: TurnInstance): WhyNotReady {
  for (const turn of instance.turns.keys()) {
    const { impossible } = lowerBoundTicks(instance, turn)
    if (impossible === null) continue
    const { kind, handsNeeded, handsMost, skillMask } = impossible
    switch (kind) {
      case 'skill':
        return { kind, skill: skillNamed(built.skills, skillMask), handsNeeded, handsMost }
      case 'hands':
        return handsMost < handsNeeded ? { kind: 'hands-at-once', handsNeeded, handsMost } : { kind: 'time' }
      case 'resource':
        return { kind: 'thing' }
      case 'budget':
        return { kind: 'paid-time' }
      default:
        return kind satisfies never
    }
  }
  return { kind: 'none-found' }
}

/** A skill that is more than being grown up, or of the crew, if there is one. */
function skillNamed(skills: readonly string[], mask: number): string {
  const names = skills.filter((_, bit) => (mask & (1 << bit)) !== 0)
  return names.find((name) => name !== ADULT && name !== CREW) ?? ADULT
}

/** Behind "With one pair of hands …". */
export function whyText(why: WhyNotReady): string {
  switch (why.kind) {
    case 'skill':
      return why.skill === ADULT
        ? `it cannot be done: ${counted(why.handsNeeded, 'adult')} must be free at one time, and ${thereAre(why.handsMost)}`
        : `it cannot be done: the skill ${why.skill} is missing`
    case 'hands-at-once':
      return `it cannot be done: something takes ${counted(why.handsNeeded, 'pair of hands', 'pairs of hands')} at one time, and ${thereAre(why.handsMost)}`
    case 'thing':
      return 'it cannot be done: a trolley, a tool, a way or quiet is not to be had'
    case 'paid-time':
      return 'it cannot be done: what is paid for in one turn is used up'
    case 'time':
      return 'it is not done within a day after doors'
    case 'state-unreachable':
      return 'it cannot be done: a device does not get into the state that is wanted'
    case 'none-found':
      return 'no plan was found'
    default:
      return why satisfies never
  }
}

const thereAre = (count: number): string => (count === 1 ? 'there is 1' : `there are ${count}`)
