/** How numbers and verdicts are said on a page. Time needed is rounded up, time there is is rounded down. */
import { layoutName } from '../../domain/setup-names.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { Turn, TurnStatus, Verdict } from '../../domain/turn.ts'

const verdictWords: Readonly<Record<Verdict, string>> = {
  fits: 'fits',
  tight: 'tight',
  'does-not-fit': 'does not fit',
}

export const verdictWord = (verdict: Verdict): string => verdictWords[verdict]

/** `45 min`, from three hours on `11 h 30 min`. @param minutes  whole, 0 or more */
export function spanWords(minutes: number): string {
  if (minutes < 180) return `${minutes} min`
  const rest = minutes % 60
  return rest === 0 ? `${minutes / 60} h` : `${Math.floor(minutes / 60)} h ${rest} min`
}

const minutesNeeded = (seconds: number): number => Math.ceil(seconds / 60)
const minutesThere = (seconds: number): number => Math.floor(seconds / 60)

/** `needs 61 min of 70 min there`; without a plan `70 min there, no plan found`. */
export function neededWords({ neededSeconds, staffedWindowSeconds }: Turn['judgement']): string {
  const there = spanWords(minutesThere(staffedWindowSeconds))
  if (neededSeconds === null) return `${there} there, no plan found`
  return `needs ${spanWords(minutesNeeded(neededSeconds))} of ${there} there`
}

/** `9 min to spare`, `14 min short`; null when there is no plan to tell by. */
export function slackWords({ slackSeconds }: Turn['judgement']): string | null {
  if (slackSeconds === null) return null
  return slackSeconds < 0
    ? `${spanWords(minutesNeeded(-slackSeconds))} short`
    : `${spanWords(minutesThere(slackSeconds))} to spare`
}

/** `5 hands of 6 on duty` */
export function handsWords({ hands }: Turn['judgement']): string {
  const needed = hands.needed === 1 ? '1 hand' : `${hands.needed} hands`
  return `${needed} of ${hands.onDuty} on duty`
}

/** `Games floor → Banquet` */
export function changeWords(turn: Pick<Turn, 'fromLayoutIds' | 'toLayoutId'>, setup: SiteSetup): string {
  const from = turn.fromLayoutIds.map((id) => layoutName(setup, id)).join(' and ') || 'bare floor'
  return `${from} → ${layoutName(setup, turn.toLayoutId)}`
}

export const statusWords: Readonly<Record<TurnStatus, string>> = {
  ready: 'planned',
  failing: 'failing',
  dropped: 'no longer needed',
}
