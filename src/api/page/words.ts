/** How numbers and verdicts are said on a page. Time needed is rounded up, time there is is rounded down. */
import type { Booking } from '../../domain/booking.ts'
import { instantPlusSeconds } from '../../domain/instant.ts'
import { layoutName } from '../../domain/setup-names.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { Turn, TurnStatus } from '../../domain/turn.ts'
import type { Verdict } from '../../domain/verdict.ts'
import { dayAndTimeOf } from '../../scheduler/timeline/wall-time.ts'
import { counted } from '../../scheduler/wording/counted.ts'
import { listText } from '../../scheduler/wording/list-text.ts'
import { shownBeside, spanNeeded, spanText, spanThere } from '../../scheduler/wording/shown-minutes.ts'
import type { WarningKind } from '../warnings/warning.ts'

const verdictWords: Readonly<Record<Verdict, string>> = {
  fits: 'fits',
  tight: 'tight',
  'does-not-fit': 'does not fit',
}

export const verdictWord = (verdict: Verdict): string => verdictWords[verdict]

/** `needs 61 min of 70 min there`; without a plan `70 min there, no plan found`. */
export function neededWords({ neededSeconds, staffedWindowSeconds }: Turn['judgement']): string {
  const there = spanThere(staffedWindowSeconds)
  if (neededSeconds === null) return `${there} there, no plan found`
  return `needs ${spanNeeded(neededSeconds)} of ${there} there`
}

/** `9 min to spare`, `14 min short`; null when there is no plan to tell by. */
export function slackWords({ readyAt, slackSeconds }: Turn['judgement']): string | null {
  if (readyAt === null || slackSeconds === null) return null
  const { lateMinutes } = shownBeside(readyAt, instantPlusSeconds(readyAt, slackSeconds))
  return lateMinutes > 0 ? `${spanText(lateMinutes)} short` : `${spanText(-lateMinutes)} to spare`
}

/** `5 hands of 6 on duty`, and where some are assumed `, with 2 hands that nobody has promised`. */
export function handsWords({ hands }: Turn['judgement']): string {
  const words = `${counted(hands.needed, 'hand')} of ${hands.onDuty} on duty`
  return hands.assumed === 0
    ? words
    : `${words}, with ${counted(hands.assumed, 'hand')} that nobody has promised`
}

/** `held until Fri 27 Nov 12:00`, `at risk: actor_ben answers for it`; none for a booking that is firm and fits. */
export function standingWords({ status, holdExpiresAt, riskAccepted }: Booking, zone: string): string[] {
  return [
    ...(status === 'TENTATIVE' && holdExpiresAt !== null
      ? [`held until ${dayAndTimeOf(holdExpiresAt, zone)}`]
      : []),
    ...(riskAccepted === null ? [] : [`at risk: ${riskAccepted.actorId} answers for it`]),
  ]
}

export const warningWords: Readonly<Record<WarningKind, string>> = {
  failing: 'does not fit',
  'at-risk': 'at risk',
  assumed: 'rests on hands that nobody has promised',
  stale: 'to be looked at again',
}

/** `1 turn is yet to be looked at again` */
export const staleWords = (count: number): string =>
  `${counted(count, 'turn is', 'turns are')} yet to be looked at again`

/** `Games floor → Banquet` */
export function changeWords(turn: Pick<Turn, 'fromLayoutIds' | 'toLayoutId'>, setup: SiteSetup): string {
  const from = listText(turn.fromLayoutIds.map((id) => layoutName(setup, id))) || 'bare floor'
  return `${from} → ${layoutName(setup, turn.toLayoutId)}`
}

export const statusWords: Readonly<Record<TurnStatus, string>> = {
  ready: 'planned',
  failing: 'failing',
  dropped: 'no longer needed',
}
