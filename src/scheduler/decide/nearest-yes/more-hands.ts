/** A yes if: as it was asked for, once the fewest more hands that would do are there, and only while they are needed. */
import type { Alternative } from '../../../domain/alternative.ts'
import { earlierOf, type Instant, instantPlusSeconds, secondsBetween } from '../../../domain/instant.ts'
import type { Operation } from '../../../domain/operation.ts'
import { type Reason, speaksAgainst } from '../../../domain/reason.ts'
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import { worldAfter } from '../operations/world-after.ts'
import { isTurnWork } from '../plan/event-tasks.ts'
import { type AnswerWithHands, answerWithHands } from './answer-with-hands.ts'
import { downToFiveMinutes } from './five-minutes.ts'
import { handsAdded } from './hands-added.ts'
import { type HandsWanted, handsWanted, somewhatMore } from './hands-wanted.ts'
import { isSeen } from './is-seen.ts'
import { moreHandsText } from './more-hands-text.ts'

/** More who come for one turn get in each other's way: common practice, no source. */
const HANDS_MOST = 6
const TRIALS_MOST = 6
/** To come so much later is worth a second look. */
const LATER_WORTH_SECONDS = 1800

/** @returns one at most; `operations` may be several, taken together */
export function moreHands(
  snapshot: SiteSnapshot,
  operations: readonly Operation[],
  reasons: readonly Reason[],
): Alternative[] {
  const { world } = worldAfter(snapshot, operations)
  let wanted = handsWanted(world, reasons)
  for (let trial = 0; trial < TRIALS_MOST && wanted !== null && wanted.hands <= HANDS_MOST; trial += 1) {
    if (!isSeen(snapshot, operations, [handsAdded(snapshot, wanted), ...operations])) return []
    const answer = answerWithHands(snapshot, operations, wanted)
    if (answer.verdict !== 'does-not-fit')
      return [alternative(snapshot, asLateAsPossible(snapshot, operations, wanted, answer))]
    wanted = somewhatMore(wanted, answer.reasons.filter(speaksAgainst))
  }
  return []
}

interface HandsThatDo {
  readonly wanted: HandsWanted
  readonly isTight: boolean
}

/** Where the room is empty long before doors, they need not come as soon as they could. */
function asLateAsPossible(
  snapshot: SiteSnapshot,
  operations: readonly Operation[],
  wanted: HandsWanted,
  answer: AnswerWithHands,
): HandsThatDo {
  const asFound = { wanted, isTight: answer.verdict === 'tight' }
  const startsAt = latestStartAt(snapshot, answer)
  if (startsAt === null) return asFound
  const fromAt = downToFiveMinutes(startsAt)
  if (secondsBetween(wanted.fromAt, fromAt) < LATER_WORTH_SECONDS) return asFound
  const later = { ...wanted, fromAt }
  const { verdict } = answerWithHands(snapshot, operations, later)
  return verdict === 'does-not-fit' ? asFound : { wanted: later, isTight: verdict === 'tight' }
}

/** As if each turn, from their first work in it, were done just before doors, with the time to spare; null: they do nothing. */
function latestStartAt({ shifts, policy }: SiteSnapshot, { turns }: AnswerWithHands): Instant | null {
  const known = new Set<string>(shifts.map(({ id }) => id))
  const isAdded = (laneId: string) => laneId.startsWith('shift_') && !known.has(laneId.split('#')[0]!)
  const starts = turns.flatMap(({ plan, dueAt }): Instant[] => {
    const tasks = plan?.tasks.filter(({ laneIds }) => laneIds.some(isAdded)) ?? []
    const atEvent = tasks.filter((task) => !isTurnWork(task)).map((task) => task.startsAt)
    const firstAt = tasks.find(isTurnWork)?.startsAt
    if (!plan || firstAt === undefined) return atEvent
    const workedSeconds = secondsBetween(firstAt, plan.readyAt)
    return [...atEvent, instantPlusSeconds(dueAt, -workedSeconds - policy.slackWantedSeconds)]
  })
  return starts.length === 0 ? null : starts.reduce(earlierOf)
}

function alternative({ site }: SiteSnapshot, { wanted, isTight }: HandsThatDo): Alternative {
  const { skills, ...rest } = wanted
  return {
    kind: 'more-hands',
    certainty: 'yes-if',
    ...rest,
    skills: [...skills],
    agreeByAt: wanted.fromAt,
    isTight,
    message: moreHandsText(wanted, isTight ? 'tight' : 'fits', site.zone),
  }
}
