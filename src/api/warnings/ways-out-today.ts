/** What would help a turn, as it can still be done: what was found in the background, and what its reasons say themselves. */
import type { Alternative } from '../../domain/alternative.ts'
import type { HalfOpenInterval } from '../../domain/half-open-interval.ts'
import type { Instant } from '../../domain/instant.ts'
import { speaksAgainst } from '../../domain/reason.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { Turn } from '../../domain/turn.ts'
import { moreHandsText } from '../../scheduler/decide/index.ts'

/** @returns what was found, in its order; hands that the reasons tell of come last, where none were found */
export function waysOutToday(turn: Turn, setup: SiteSetup, now: Instant): Alternative[] {
  const found = turn.judgement.waysOut
  const told = found.some(({ kind }) => kind === 'more-hands') ? [] : handsTold(turn, setup)
  return [...found, ...told].filter((way) => isToCome(way, turn, now))
}

function isToCome(way: Alternative, { dueAt }: Turn, now: Instant): boolean {
  switch (way.kind) {
    case 'other-doors':
      return way.doorsAt > now
    case 'more-hands':
      return way.agreeByAt > now
    case 'other-layout':
    case 'other-room':
      return dueAt > now
    default:
      return way satisfies never
  }
}

/** Nobody has to look for these: so many would do, or have been counted on already. */
function handsTold({ releaseAt, judgement: { reasons } }: Turn, { site }: SiteSetup): Alternative[] {
  const [against, ...more] = reasons.filter(speaksAgainst)
  if (against === undefined) {
    const isTight = reasons.some(({ code }) => code === 'slack-under-policy')
    return reasons.flatMap((reason) =>
      reason.code === 'hands-assumed'
        ? [moreHands(reason.handsAssumed, reason, { unpaid: false, isTight }, site.zone)]
        : [],
    )
  }
  // Where something else is missing too, hands alone are no way out.
  if (more.length > 0 || (against.code !== 'hands-short' && against.code !== 'paid-hours-short')) return []
  const isPaidShort = against.code === 'paid-hours-short'
  const hands = isPaidShort ? against.unpaidHandsNeeded : against.handsNeeded - against.handsOnDuty
  const unpaid = isPaidShort || against.unpaid
  const span = { fromAt: releaseAt, toAt: against.doorsAt }
  return hands === null ? [] : [moreHands(hands, span, { unpaid, isTight: false }, site.zone)]
}

function moreHands(
  hands: number,
  { fromAt, toAt }: HalfOpenInterval,
  { unpaid, isTight }: { readonly unpaid: boolean; readonly isTight: boolean },
  zone: string,
): Alternative {
  const wanted = { hands, handsWithSkills: 0, skills: [], fromAt, toAt, unpaid, grownUp: false }
  const message = moreHandsText(wanted, isTight ? 'tight' : 'fits', zone)
  return { kind: 'more-hands', certainty: 'yes-if', ...wanted, agreeByAt: fromAt, isTight, message }
}
