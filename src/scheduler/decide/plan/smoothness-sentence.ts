/** What it costs that a plan is easy to follow, in a sentence. */
import type { Smoothness } from '../../../domain/plan.ts'
import { counted } from '../../wording/counted.ts'

/** More different tasks than this, one after the other, are not easy to keep in mind: common practice, no source. */
const EASY_TASKS_MOST = 7

/** @returns null where nobody has looked for a plan that is easier to follow: then nothing is known of what it costs */
export function smoothnessSentence({ stintsMost, priceSeconds }: Smoothness): string | null {
  if (priceSeconds === null || stintsMost === 0) return null
  const tasks = counted(stintsMost, 'task')
  if (stintsMost > EASY_TASKS_MOST) {
    const later = priceSeconds === 0 ? 'no later' : `${lengthText(priceSeconds)} later`
    return `Somebody has ${tasks}, which is much to keep in mind: no plan was found that is easier to follow and hardly later. This one is ready ${later} than the quickest found.`
  }
  return priceSeconds === 0
    ? `The plan is made to be easy to follow, which costs no time: nobody has more than ${tasks}.`
    : `Ready ${lengthText(priceSeconds)} later than the quickest plan found, to be easier to follow: nobody has more than ${tasks}.`
}

/** `2 min`, `1 min 30 s`, `30 s`: to the second, for it is little. @param seconds  1 or more */
function lengthText(seconds: number): string {
  const minutes = Math.floor(seconds / 60)
  const rest = seconds % 60
  return [...(minutes > 0 ? [`${minutes} min`] : []), ...(rest > 0 ? [`${rest} s`] : [])].join(' ')
}
