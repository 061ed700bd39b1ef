/**
 * Doors further and further from those asked for, on the clock's five minutes, until the same booking, moved as a whole,
 * is accepted. Doors that something speaks against by itself, and those that a proof excludes, cost no trial; each of the
 * others is answered as a request would be. Where that takes too many trials, what spoke against the last one says where
 * to go on, and what lies between is left out.
 */
import type { Booking } from '../../../domain/booking.ts'
import { type Instant, instantPlusSeconds, laterOf } from '../../../domain/instant.ts'
import { speaksAgainst } from '../../../domain/reason.ts'
import { bookingReasons } from '../checks/index.ts'
import { operationProblems } from '../operations/operation-problems.ts'
import { worldAfter } from '../operations/world-after.ts'
import { answered } from './answer-to.ts'
import type { AroundAsked } from './around-asked.ts'
import type { AskedFor } from './asked-for.ts'
import type { CannotBeTurned } from './cannot-be-turned.ts'
import { crewIsMissing } from './crew-is-missing.ts'
import { isSeen } from './is-seen.ts'
import { movedTo } from './moved-booking.ts'
import type { Way } from './way.ts'

/** One after the other: so long somebody waits for the answer to a no. */
const IN_ORDER_MOST = 16
/** And so many more by leaps. */
const LEAPS_MOST = 6

export interface NearestDoors {
  readonly booking: Booking
  readonly verdict: 'fits' | 'tight'
  /** All doors up to these were looked at, of those beyond only some; null: there are no nearer ones. */
  readonly allUpToAt: Instant | null
}

/** @returns null: none was found, within 48 h and as far as is known */
export function nearestDoors(
  asked: AskedFor,
  around: AroundAsked,
  cannot: CannotBeTurned,
  way: Way,
): NearestDoors | null {
  const { snapshot } = asked
  let allUpToAt: Instant | null = null
  let trials = 0
  let doorsAt = way.stepped(asked.booking.doorsAt)
  // Each step leads on by five minutes at least, so that they end at 48 h.
  while (doorsAt >= around.firstAt && doorsAt <= around.lastAt) {
    const booking = movedTo(asked.booking, doorsAt)
    if (!mayBeOffered(asked, booking)) return null
    const excluded = isRefusedByItself(asked, around, booking)
      ? doorsAt
      : lastExcluded(asked, around, cannot, way, booking)
    if (excluded !== null) {
      doorsAt = way.stepped(excluded)
      continue
    }
    if (trials === IN_ORDER_MOST + LEAPS_MOST) return null
    trials += 1
    const { verdict, reasons } = answered(snapshot, [asked.instead(booking)])
    if (verdict !== 'does-not-fit') return { booking, verdict, allUpToAt }
    if (trials < IN_ORDER_MOST) doorsAt = way.stepped(doorsAt)
    else {
      allUpToAt ??= doorsAt
      const next = way.leapt(booking, reasons.filter(speaksAgainst))
      if (next === null) return null
      doorsAt = next
    }
  }
  return null
}

/** Stretches that are excluded as a whole, the longest first: nights, days without anybody on duty. */
const STRETCHES_SECONDS = [24 * 3600, 6 * 3600, 3600]

/** @returns the last doors on that way up to which a proof excludes all; null: it does not exclude these */
function lastExcluded(
  asked: AskedFor,
  around: AroundAsked,
  cannot: CannotBeTurned,
  { sign }: Way,
  booking: Booking,
): Instant | null {
  const worldWith = (one: Booking) => worldAfter(asked.snapshot, [asked.instead(one)]).world
  const { doorsAt } = booking
  const world = worldWith(booking)
  if (!cannot.isProvenUntil(world, booking, doorsAt)) {
    return cannot.isProven(world, booking) ? doorsAt : null
  }
  for (const seconds of STRETCHES_SECONDS) {
    const farAt = instantPlusSeconds(doorsAt, sign * seconds)
    const far = movedTo(asked.booking, farAt)
    // What is not known, or lies in the past, ends the search.
    if (farAt < around.firstAt || farAt > around.lastAt || !mayBeOffered(asked, far)) continue
    const first = sign > 0 ? booking : far
    if (cannot.isProvenUntil(worldWith(first), first, laterOf(doorsAt, farAt))) return farAt
  }
  return doorsAt
}

/** Not in the past, and all is known that the answer could hang on. Where it is not, it is not further on that way. */
const mayBeOffered = ({ snapshot, booking, instead }: AskedFor, moved: Booking): boolean =>
  moved.doorsAt > snapshot.now && isSeen(snapshot, [instead(booking)], [instead(moved)])

/** Before any of its turns is looked at; or the hold would not be over by doors. */
function isRefusedByItself(asked: AskedFor, around: AroundAsked, booking: Booking): boolean {
  const { snapshot, world } = asked
  const { doorsAt, holdExpiresAt } = booking
  return (
    (holdExpiresAt !== null && holdExpiresAt > doorsAt) ||
    bookingReasons(world, booking).some(speaksAgainst) ||
    crewIsMissing(around, booking, snapshot.policy.planningHands) ||
    operationProblems(snapshot, [asked.instead(booking)]).length > 0
  )
}
