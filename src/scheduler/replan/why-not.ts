/** Why what is left cannot be done by those who are there, as far as that is plain to see. */
import type { TaskNetwork } from '../../domain/task.ts'
import type { BuiltInstance } from '../decide/plan/built-instance.ts'
import { TICK_SECONDS } from '../turn/index.ts'
import { counted } from '../wording/counted.ts'
import { listText } from '../wording/list-text.ts'
import { taskText } from './replan-words.ts'

/**
 * @returns a sentence; the first of: nobody is there, a skill is missing, too few for a task, too little paid time; else
 * that it cannot be done
 */
export function whyNotSentence({ lanes, instance }: BuiltInstance, { tasks }: TaskNetwork): string {
  const there = lanes.filter((_, index) => (instance.lanes[index]?.available.length ?? 0) > 0)
  const hands = new Set(there.map(({ laneId }) => laneId)).size
  if (hands === 0) return 'What is left cannot be done: nobody is there.'
  const asked = [...new Set(tasks.flatMap(({ skill }) => skill ?? []))].sort()
  const lacking = asked.filter((skill) => !there.some(({ skills }) => skills.includes(skill)))
  if (lacking.length > 0) {
    return `What is left cannot be done: nobody who is there has the skill ${listText(lacking)}.`
  }
  const heavy = tasks.find(({ modes }) => modes.every((mode) => mode.hands > hands))
  if (heavy) {
    const least = Math.min(...heavy.modes.map((mode) => mode.hands))
    return `What is left cannot be done: “${taskText(heavy)}” takes ${counted(least, 'hand')}, and there ${hands === 1 ? 'is' : 'are'} ${hands}.`
  }
  const paidMinutes = paidMinutesLeft(instance)
  const leastMinutes = Math.ceil(
    tasks.reduce((sum, { modes }) => sum + Math.min(...modes.map((mode) => mode.hands * mode.seconds)), 0) /
      60,
  )
  if (paidMinutes !== null && leastMinutes > paidMinutes) {
    return `What is left cannot be done: it takes ${leastMinutes} min of work at least, and ${paidMinutes} min of paid time are left.`
  }
  return 'What is left cannot be done with those who are there within a day.'
}

/** null: it is not limited, or somebody is there who is not paid. */
function paidMinutesLeft({ budgets = [], lanes }: BuiltInstance['instance']): number | null {
  const isUnpaid = lanes.some(({ budget, available }) => budget === undefined && available.length > 0)
  const [budget] = budgets
  return budget === undefined || isUnpaid ? null : Math.floor((budget.laneTicksMost * TICK_SECONDS) / 60)
}
