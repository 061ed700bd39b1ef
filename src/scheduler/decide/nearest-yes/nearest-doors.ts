/**
 * Doors further and further from those asked for, on the clock's five minutes, until the same booking, moved as a whole,
 * is accepted. Doors that something speaks against by itself, and those that a proof excludes, cost no trial; each of the
 * others is answered as a request would be. Where that takes too many trials, what spoke against the last one says where
 * to go on; from the first that are accepted then the search comes back towards those that were asked for.
 */
import type { Booking } from '../../../domain/booking.ts'
import type { Instant } from '../../../domain/instant.ts'
import { type Reason, speaksAgainst } from '../../../domain/reason.ts'
import { answered } from './answer-to.ts'
import type { AroundAsked } from './around-asked.ts'
import type { AskedFor } from './asked-for.ts'
import type { CannotBeTurned } from './cannot-be-turned.ts'
import { movedTo } from './moved-booking.ts'
import { OpenDoors } from './open-doors.ts'
import type { Way } from './way.ts'

/** One after the other: so long somebody waits for the answer to a no. */
const IN_ORDER_MOST = 16
/** And so many more by leaps. */
const LEAPS_MOST = 6
/** And, where those left something out and found something, so many on the way back. */
const BACK_MOST = 8

export interface NearestDoors {
  readonly booking: Booking
  readonly verdict: 'fits' | 'tight'
  /** All doors up to these were looked at, of those beyond only some; null: there are no nearer ones. */
  readonly allUpToAt: Instant | null
}

interface Accepted {
  readonly booking: Booking
  readonly verdict: 'fits' | 'tight'
}

/** @returns null: none was found, within 48 h and as far as is known */
export function nearestDoors(
  asked: AskedFor,
  around: AroundAsked,
  cannot: CannotBeTurned,
  way: Way,
): NearestDoors | null {
  const open = new OpenDoors(asked, around, cannot, way)
  const refused: Instant[] = []
  let doorsAt = open.from(way.stepped(asked.booking.doorsAt))
  while (doorsAt !== null && refused.length < IN_ORDER_MOST + LEAPS_MOST) {
    const answer = trial(asked, doorsAt)
    if (!('against' in answer)) return comeBack(asked, open, way, refused, answer)
    refused.push(doorsAt)
    const next =
      refused.length < IN_ORDER_MOST ? way.stepped(doorsAt) : way.leapt(answer.booking, answer.against)
    doorsAt = next === null ? null : open.from(next)
  }
  return null
}

/**
 * The nearest that are accepted among those that were leapt over. Where those are few, each is tried; else they are halved
 * between the last that were refused and the first accepted, for most of the time that is where it turns.
 * @param refused  in the order in which they were tried, away from those asked for
 */
function comeBack(
  asked: AskedFor,
  open: OpenDoors,
  way: Way,
  refused: readonly Instant[],
  accepted: Accepted,
): NearestDoors {
  const inOrderAt = refused[IN_ORDER_MOST - 1]
  if (inOrderAt === undefined) return { ...accepted, allUpToAt: null }
  const lastRefusedAt = refused.at(-1)!
  const tried = new Set(refused)
  let found = accepted
  let trialsLeft = BACK_MOST
  const isNearer = (at: Instant) => way.sign * (found.booking.doorsAt - at) > 0
  const leftOut = open.between(inOrderAt, accepted.booking.doorsAt).filter((at) => !tried.has(at))
  const tryAt = (at: Instant): boolean => {
    trialsLeft -= 1
    tried.add(at)
    const answer = trial(asked, at)
    if ('against' in answer) return false
    found = answer
    return true
  }
  let turning = leftOut.filter((at) => way.sign * (at - lastRefusedAt) > 0)
  while (leftOut.length > BACK_MOST && turning.length > 0 && trialsLeft > 0) {
    const middle = turning.length >> 1
    turning = tryAt(turning[middle]!) ? turning.slice(0, middle) : turning.slice(middle + 1)
  }
  for (const at of leftOut) {
    if (trialsLeft === 0 || !isNearer(at)) break
    if (!tried.has(at) && tryAt(at)) break
  }
  const first = leftOut.find((at) => isNearer(at) && !tried.has(at))
  return { ...found, allUpToAt: first === undefined ? null : way.back(first) }
}

/** As a request for those doors would be answered. */
function trial(
  { snapshot, booking: asked, instead }: AskedFor,
  doorsAt: Instant,
): Accepted | { readonly booking: Booking; readonly against: readonly Reason[] } {
  const booking = movedTo(asked, doorsAt)
  const { verdict, reasons } = answered(snapshot, [instead(booking)])
  return verdict === 'does-not-fit'
    ? { booking, against: reasons.filter(speaksAgainst) }
    : { booking, verdict }
}
