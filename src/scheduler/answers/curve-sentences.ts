/** A curve of hands in words: how many are enough, who they must be, and what more would bring. */
import type { CurvePoint, FewestHands, HandsCurve, SkillMix } from '../../domain/hands-curve.ts'
import type { Instant } from '../../domain/instant.ts'
import { counted } from '../wording/counted.ts'
import { listText } from '../wording/list-text.ts'
import { shownBeside } from '../wording/shown-minutes.ts'
import { momentText } from './moment-text.ts'
import { whyText } from './why-not-ready.ts'

type Curve = Omit<HandsCurve, 'sentences' | 'work'>

/** Days are named where it is ready on another than that of doors. */
export function curveSentences({ doorsAt, points, fewest, mix }: Curve, zone: string): string[] {
  const { atAll, withSlack } = fewest
  const shown = (readyAt: Instant) => momentText(shownBeside(readyAt, doorsAt).readyAt, doorsAt, zone)
  const doors = (readyAt: Instant | null) => `doors at ${momentText(doorsAt, readyAt ?? doorsAt, zone)}`
  if (atAll.hands === null || atAll.readyAt === null) {
    const readyAt = points.at(-1)?.readyAt ?? null
    const most = `up to ${pairs(points.length)}`
    const sentence =
      atAll.proof === 'bound'
        ? `By ${doors(readyAt)} it cannot be ready with ${most}, whoever they are.`
        : `No plan was found in which it is ready by ${doors(readyAt)} with ${most}.`
    return [sentence, ...mostText(points.at(-1), shown)]
  }
  const { hands, readyAt } = atAll
  const enough = `${pairs(hands)} ${hands === 1 ? 'is' : 'are'} enough for ${doors(readyAt)}`
  return [
    `${enough}: ready at ${shown(mix?.readyAt ?? readyAt)}; ${mixText(mix, hands)}.${fewerText(atAll)}`,
    ...(withSlack.hands === hands ? [] : [slackText(withSlack, points.length, shown)]),
  ]
}

/** What the most hands that were looked at come to. */
function mostText(most: CurvePoint | undefined, shown: (readyAt: Instant) => string): string[] {
  if (most === undefined) return []
  const { hands, readyAt, why, milestonesReached } = most
  if (readyAt === null) return [`With ${pairs(hands)} ${whyText(why ?? { kind: 'none-found' })}.`]
  const missed = milestonesReached ? '' : ', and not all that was asked for earlier is reached in time'
  return [`With ${pairs(hands)} it is ready at ${shown(readyAt)}${missed}.`]
}

function mixText(mix: SkillMix | null, hands: number): string {
  if (mix === null) return 'who they must be is not known'
  if (hands === 1) return oneText(mix)
  const skilled = mix.skills.map(({ skill, hands: count }) => `${count} with the skill ${skill}`)
  const areAllAdults = mix.adults === hands
  const parts = areAllAdults || mix.adults === 0 ? skilled : [...skilled, counted(mix.adults, 'adult')]
  const among = parts.length === 0 ? [] : [`among them ${listText(parts)}`]
  const all = [...among, ...(areAllAdults ? ['all of them adults'] : [])]
  return all.length === 0 ? 'anybody will do' : all.join(', ')
}

function oneText({ skills, adults }: SkillMix): string {
  if (skills.length === 0) return adults === 0 ? 'anybody will do' : 'it must be an adult'
  const named = listText(skills.map(({ skill }) => skill))
  return `it must be ${adults === 0 ? 'somebody' : 'an adult'} with the skill ${named}`
}

function fewerText({ hands, proof }: FewestHands): string {
  if (hands === null || hands === 1) return ''
  return proof === 'bound'
    ? ` ${pairs(hands - 1)} cannot do it, whoever they are.`
    : ` With ${pairs(hands - 1)} no plan was found, which proves nothing.`
}

const slackText = (
  { hands, readyAt }: FewestHands,
  handsMost: number,
  shown: (readyAt: Instant) => string,
): string =>
  hands === null || readyAt === null
    ? `The time to spare that is wanted was not found with up to ${pairs(handsMost)}.`
    : `With the time to spare that is wanted it takes ${pairs(hands)}: ready at ${shown(readyAt)}.`

const pairs = (hands: number): string => counted(hands, 'pair of hands', 'pairs of hands')
