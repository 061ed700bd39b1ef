/**
 * The doors on one way that are worth a trial: nothing speaks against the booking there by itself, and no proof excludes
 * its turns. What was found is remembered, so that the same way can be walked again.
 */
import type { Booking } from '../../../domain/booking.ts'
import { type Instant, instantPlusSeconds, laterOf } from '../../../domain/instant.ts'
import { speaksAgainst } from '../../../domain/reason.ts'
import { bookingReasons } from '../checks/index.ts'
import { operationProblems } from '../operations/operation-problems.ts'
import { worldAfter } from '../operations/world-after.ts'
import type { AroundAsked } from './around-asked.ts'
import type { AskedFor } from './asked-for.ts'
import type { CannotBeTurned } from './cannot-be-turned.ts'
import { crewIsMissing } from './crew-is-missing.ts'
import { isSeen } from './is-seen.ts'
import { movedTo } from './moved-booking.ts'
import type { Way } from './way.ts'

/** Stretches that are excluded as a whole, the longest first: nights, days without anybody on duty. */
const STRETCHES_SECONDS = [24 * 3600, 6 * 3600, 3600]

export class OpenDoors {
  private readonly asked: AskedFor
  private readonly around: AroundAsked
  private readonly cannot: CannotBeTurned
  private readonly way: Way
  /** By doors: up to which all are excluded; null: those are open; `end`: they and all beyond are out of reach. */
  private readonly known = new Map<Instant, Instant | null | 'end'>()

  constructor(asked: AskedFor, around: AroundAsked, cannot: CannotBeTurned, way: Way) {
    this.asked = asked
    this.around = around
    this.cannot = cannot
    this.way = way
  }

  /** The first that are open, those given or further on; null: none, within 48 h and as far as is known. */
  from(doorsAt: Instant): Instant | null {
    let at = doorsAt
    // Each step leads on by five minutes at least, so that they end at 48 h.
    for (;;) {
      const excluded = this.excludedUpTo(at)
      if (excluded === 'end') return null
      if (excluded === null) return at
      at = this.way.stepped(excluded)
    }
  }

  /** All that are open between two, both left out, the nearest first. */
  between(nearAt: Instant, farAt: Instant): Instant[] {
    const found: Instant[] = []
    let at = this.from(this.way.stepped(nearAt))
    while (at !== null && this.way.sign * (farAt - at) > 0) {
      found.push(at)
      at = this.from(this.way.stepped(at))
    }
    return found
  }

  private excludedUpTo(doorsAt: Instant): Instant | null | 'end' {
    const known = this.known.get(doorsAt)
    if (known !== undefined) return known
    const found = this.lookedAt(doorsAt)
    this.known.set(doorsAt, found)
    return found
  }

  private lookedAt(doorsAt: Instant): Instant | null | 'end' {
    const { asked, around } = this
    if (doorsAt < around.firstAt || doorsAt > around.lastAt) return 'end'
    const booking = movedTo(asked.booking, doorsAt)
    if (!mayBeOffered(asked, booking)) return 'end'
    return isRefusedByItself(asked, around, booking) ? doorsAt : this.lastExcluded(booking)
  }

  /** The last doors up to which a proof excludes all; null: it does not exclude these. */
  private lastExcluded(booking: Booking): Instant | null {
    const { asked, around, cannot, way } = this
    const worldWith = (one: Booking) => worldAfter(asked.snapshot, [asked.instead(one)]).world
    const { doorsAt } = booking
    const world = worldWith(booking)
    if (!cannot.isProvenUntil(world, booking, doorsAt)) {
      return cannot.isProven(world, booking) ? doorsAt : null
    }
    for (const seconds of STRETCHES_SECONDS) {
      const farAt = instantPlusSeconds(doorsAt, way.sign * seconds)
      const far = movedTo(asked.booking, farAt)
      // What is not known, or lies in the past, ends the search.
      if (farAt < around.firstAt || farAt > around.lastAt || !mayBeOffered(asked, far)) continue
      const first = way.sign > 0 ? booking : far
      if (cannot.isProvenUntil(worldWith(first), first, laterOf(doorsAt, farAt))) return farAt
    }
    return doorsAt
  }
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
