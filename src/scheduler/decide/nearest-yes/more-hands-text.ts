import { dayAndTimeOf, localDateOf, localTimeOf } from '../../timeline/wall-time.ts'
import { counted } from '../../wording/counted.ts'
import { listText } from '../../wording/list-text.ts'
import { fitsText } from './fits-text.ts'
import type { HandsWanted } from './hands-wanted.ts'

/** `If 2 more hands (one of them with the skill sound) are there from Sat 15 May 20:30 to 21:30, it fits.` */
export function moreHandsText(wanted: HandsWanted, verdict: 'fits' | 'tight', zone: string): string {
  const { hands, fromAt, toAt } = wanted
  const isOneDay = localDateOf(fromAt, zone) === localDateOf(toAt, zone)
  const until = isOneDay ? localTimeOf(toAt, zone) : dayAndTimeOf(toAt, zone)
  const are = hands === 1 ? 'is' : 'are'
  return `If ${handsText(wanted)} ${are} there from ${dayAndTimeOf(fromAt, zone)} to ${until}, ${fitsText(verdict)}`
}

function handsText({ hands, handsWithSkills, skills, grownUp, unpaid }: HandsWanted): string {
  const more = counted(hands, `more ${unpaid ? 'unpaid ' : ''}${grownUp ? 'adult' : 'hand'}`)
  if (skills.length === 0) return more
  const having = `with the ${skills.length === 1 ? 'skill' : 'skills'} ${listText(skills)}`
  if (handsWithSkills === hands) return hands === 1 ? `${more} ${having}` : `${more}, all of them ${having},`
  return `${more} (${handsWithSkills === 1 ? 'one' : handsWithSkills} of them ${having})`
}
