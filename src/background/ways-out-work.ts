/**
 * Ways out for turns that fail, nearest doors first: what would be taken instead is looked for and kept with the turn.
 * When that was is kept too, so that it is done once, and again after a while.
 */
import type { Booking } from '../domain/booking.ts'
import type { SiteId } from '../domain/ids.ts'
import { type Instant, instantPlusSeconds, laterOf } from '../domain/instant.ts'
import type { Operation } from '../domain/operation.ts'
import { isOfBooking, speaksAgainst } from '../domain/reason.ts'
import type { Turn } from '../domain/turn.ts'
import type { Page, Store } from '../store/store.ts'
import type { Step, WorkParts } from './work-parts.ts'

/** What was found so long ago is looked for again: others have booked since. */
const OLD_SECONDS = 86_400
/** Only for doors so far ahead: further on there is time. */
const AHEAD_SECONDS = 21 * 86_400
const FAILING_A_PAGE = 50
/** So many are looked through at most for one that nobody has looked at. */
const FAILING_READ_MOST = 500

/** Looks at the next turn that fails. @throws Conflict when somebody else wrote meanwhile @throws DeciderBusy */
export async function findWaysOut(parts: WorkParts, siteId: SiteId): Promise<Step> {
  const { store, clock, decider, commit } = parts
  const now = clock()
  const version = await store.planningVersion(siteId)
  const turn = await nextFailing(store, siteId, now)
  const booking = turn && (await store.booking(siteId, turn.bookingId))
  if (!turn || !booking || version === null) return 'idle'
  const operation = operationFor(turn, booking)
  const answer = await decider.decide({ siteId, operations: [operation], now })
  const decision = answer.kind === 'decided' ? answer.decision : null
  const found = operation.kind === 'polish' ? decision?.changes?.turns.find(isOf(turn))?.after : null
  const foundNow = operation.kind === 'polish' ? found?.judgement.waysOut : decision?.alternatives
  const waysOut = foundNow ?? turn.judgement.waysOut
  const isReadyAfterAll = found?.status === 'ready' && !turn.judgement.reasons.some(isOfBooking)
  const looked = {
    ...turn,
    judgement: {
      ...turn.judgement,
      waysOut: [...waysOut],
      polishedAt: laterOf(now, turn.judgement.judgedAt),
    },
  }
  const after = isReadyAfterAll ? found : looked
  await commit({
    siteId,
    planningVersionExpected: version,
    action: 'find-ways-out',
    reason: isReadyAfterAll ? 'it is ready after all' : null,
    at: now,
    changes: {
      // Who was at risk is not any more.
      bookings: isReadyAfterAll ? (decision?.changes?.bookings ?? []) : [],
      turns: [{ before: turn, after }],
      setup: [],
    },
  })
  return 'wrote'
}

/**
 * What speaks against the booking itself is met again by asking for it anew. What speaks against its turn alone is not,
 * as long as nothing has changed under the turn: that is looked at for longer, and may be ready after all.
 */
function operationFor(turn: Turn, booking: Booking): Operation {
  const isRefused = turn.judgement.reasons.some((reason) => isOfBooking(reason) && speaksAgainst(reason))
  if (!isRefused) return { kind: 'polish', turnIds: [turn.id] }
  // The risk that somebody has taken is no reason to stop looking.
  return { kind: 'change', booking: { ...booking, version: booking.version + 1, riskAccepted: null } }
}

const isOf =
  ({ id }: Turn) =>
  ({ after }: { readonly after: Turn }) =>
    after.id === id

async function nextFailing(store: Store, siteId: SiteId, now: Instant): Promise<Turn | null> {
  const isOldBefore = instantPlusSeconds(now, -OLD_SECONDS)
  const untilAt = instantPlusSeconds(now, AHEAD_SECONDS)
  const isNext = ({ purpose, dueAt, judgement: { judgedAt, polishedAt } }: Turn) =>
    purpose === 'prepare' &&
    (polishedAt === null || polishedAt < judgedAt || (polishedAt <= isOldBefore && dueAt < untilAt))
  let after: string | null = null
  for (let read = 0; read < FAILING_READ_MOST; read += FAILING_A_PAGE) {
    const page: Page<Turn> = await store.failingTurns(siteId, now, { limit: FAILING_A_PAGE, after })
    const next = page.items.find(isNext)
    if (next || page.nextAfter === null) return next ?? null
    after = page.nextAfter
  }
  return null
}
