/** How many more hands a refusal asks for at least, with which skills, and when: from its reasons. */
import { type HalfOpenInterval, unionOf } from '../../../domain/half-open-interval.ts'
import type { TurnId } from '../../../domain/ids.ts'
import { secondsBetween } from '../../../domain/instant.ts'
import { type Reason, speaksAgainst } from '../../../domain/reason.ts'
import type { Skill } from '../../../domain/units.ts'
import { turnInputOf } from '../../timeline/turn-input.ts'
import type { World } from '../../timeline/world.ts'
import { handsWindow, soonestHandsAt } from '../turns/hands-window.ts'

export interface HandsWanted extends HalfOpenInterval {
  readonly hands: number
  /** So many of them have all of `skills`, the others need none. */
  readonly handsWithSkills: number
  /** In alphabetical order. */
  readonly skills: readonly Skill[]
  /** That somebody is grown up is what is missing: those who come are, whatever is asked. */
  readonly grownUp: boolean
  /** What is paid for in one turn is used up. */
  readonly unpaid: boolean
}

/** Nobody is asked to be there longer in all: common practice, no source. */
const SHIFT_LONGEST_SECONDS = 12 * 3600

/** @returns null: something speaks against it that no hands could mend, or it is too late for them */
export function handsWanted(world: World, reasons: readonly Reason[]): HandsWanted | null {
  const against = reasons.filter(speaksAgainst)
  const spans: HalfOpenInterval[] = []
  let hands = 1
  const skills = new Set<Skill>()
  for (const reason of against) {
    const span = spanOf(world, reason, against)
    if (span === null) return null
    spans.push(span)
    hands = Math.max(hands, handsMissing(reason))
    const skill = skillOf(reason)
    if (skill !== null) skills.add(skill)
  }
  if (spans.length === 0) return null
  const inOrder = unionOf(spans)
  const whole = { fromAt: inOrder[0]!.fromAt, toAt: inOrder.at(-1)!.toAt }
  if (secondsBetween(whole.fromAt, whole.toAt) > SHIFT_LONGEST_SECONDS) return null
  const grownUp = against.some(isForAdults)
  const unpaid = against.some(isForUnpaid)
  return {
    ...whole,
    hands,
    skills: [...skills].sort(),
    handsWithSkills: skills.size > 0 ? 1 : 0,
    grownUp,
    unpaid,
  }
}

/** So many at least, as far as the reason tells. */
function handsMissing(reason: Reason): number {
  if (reason.code === 'hands-short') return reason.handsNeeded - reason.handsOnDuty
  if (reason.code === 'paid-hours-short') return reason.unpaidHandsNeeded ?? 1
  if (reason.code === 'crew-demand-short')
    return Math.max(1, reason.handsNeeded - (reason.handsFree ?? reason.handsNeeded))
  return 1
}

const isForAdults = (reason: Reason): boolean => reason.code === 'skill-missing' && reason.skill === 'adult'

const isForUnpaid = (reason: Reason): boolean =>
  reason.code === 'paid-hours-short' ||
  (reason.code === 'hands-short' && reason.unpaid) ||
  (reason.code === 'crew-demand-short' && reason.paidSecondsMost !== null)

/** Somewhat more, by what spoke against a trial with so many: a skill that is missing too, or one hand. */
export function somewhatMore(before: HandsWanted, reasons: readonly Reason[]): HandsWanted {
  const wanted = { ...before, grownUp: before.grownUp || reasons.some(isForAdults) }
  const asked = reasons.flatMap((reason) => skillOf(reason) ?? [])
  const missing = asked.filter((skill) => !wanted.skills.includes(skill))
  if (missing.length > 0) {
    const skills = [...new Set([...wanted.skills, ...missing])].sort()
    return { ...wanted, skills, handsWithSkills: Math.max(1, wanted.handsWithSkills) }
  }
  if (asked.length === 0) return { ...wanted, hands: wanted.hands + 1 }
  const handsWithSkills = wanted.handsWithSkills + 1
  return { ...wanted, handsWithSkills, hands: Math.max(wanted.hands, handsWithSkills) }
}

/** When hands would have to be there; null: no hands can mend it. */
function spanOf(world: World, reason: Reason, against: readonly Reason[]): HalfOpenInterval | null {
  switch (reason.code) {
    case 'paid-hours-short':
    case 'hands-short':
    case 'skill-missing':
    case 'milestone-missed':
    case 'another-turn-broken':
      return spanOfTurn(world, reason.turnId)
    case 'turn-before-too-long':
    case 'turn-after-too-long':
      // Hands without the skill that is missing were of no use: with it they may be.
      return against.some((other) => other.code === 'skill-missing' && other.turnId === reason.turnId)
        ? spanOfTurn(world, reason.turnId)
        : null
    case 'crew-demand-short':
      return reason.fromAt >= soonestHandsAt(world) ? { fromAt: reason.fromAt, toAt: reason.toAt } : null
    default:
      return null
  }
}

function spanOfTurn(world: World, turnId: TurnId): HalfOpenInterval | null {
  const booking = world.bookings.find((one) => one.turnId === turnId)
  if (!booking) return null
  return handsWindow(world, turnInputOf(world, booking))
}

/** null: none that is more than being there, or grown up. */
function skillOf(reason: Reason): Skill | null {
  if (reason.code !== 'skill-missing' && reason.code !== 'crew-demand-short') return null
  return reason.skill === 'adult' ? null : reason.skill
}
