/**
 * What must be true of a site at any time, asked of all of it, piece by piece. With each piece comes what stands before
 * its bookings and what else is done at the same time, as for a decision on it; of that nothing is said in this piece.
 */
import type { HalfOpenInterval } from '../domain/half-open-interval.ts'
import { homeTurnId } from '../domain/home-turn-id.ts'
import type { SiteId } from '../domain/ids.ts'
import { type Instant, instantPlusSeconds } from '../domain/instant.ts'
import type { SiteSnapshot } from '../domain/snapshot.ts'
import { TURN_LATE_MOST_SECONDS, TURN_LONGEST_SECONDS } from '../domain/turn.ts'
import { brokenInvariants } from '../scheduler/decide/index.ts'
import type { StoredFile } from '../store/stored-file.ts'
import { readableBookings } from './read-columns.ts'
import { type StoredFault, whyUnreadable } from './stored-fault.ts'
import { windowsOfBookings } from './windows-of-bookings.ts'

/** What is loaded with a piece is more than the piece where it is small, and too much to hold where it is large. */
const BOOKINGS_A_PIECE = 250
/** Work at the same time as a turn of the piece is of a turn that is due at most so much earlier, and begins so before. */
const BEFORE_SECONDS = 2 * TURN_LONGEST_SECONDS + TURN_LATE_MOST_SECONDS

/** @param bookingsMost  in one piece; what is found does not depend on it */
export async function* invariantFaults(
  file: StoredFile,
  siteId: SiteId,
  now: Instant,
  bookingsMost = BOOKINGS_A_PIECE,
): AsyncGenerator<StoredFault> {
  const doors = [...readableBookings(file, siteId)].map(({ doorsAt }) => doorsAt).sort((a, b) => a - b)
  const said = new Set<string>()
  for (const piece of windowsOfBookings(doors, bookingsMost)) {
    for (const what of await askedOf(file, siteId, piece, now)) {
      // What concerns two pieces is found in both.
      if (said.has(what)) continue
      said.add(what)
      yield { siteId, where: 'invariants', what }
    }
  }
}

/** @returns the sentences of what is broken, or the one that says why it could not be asked */
async function askedOf(
  file: StoredFile,
  siteId: SiteId,
  piece: HalfOpenInterval,
  now: Instant,
): Promise<string[]> {
  try {
    const snapshot = await loadedAround(file, siteId, piece, now)
    if (!snapshot) return ['there are bookings and no policy']
    const ids = idsOf(snapshot, piece)
    return brokenInvariants(snapshot).filter((sentence) => isAbout(sentence, ids))
  } catch (error) {
    return [`cannot be asked: ${whyUnreadable(error)}`]
  }
}

/** A room that is put back after so long may be one from which everybody was gone for as long. */
async function loadedAround(
  file: StoredFile,
  siteId: SiteId,
  { fromAt, toAt }: HalfOpenInterval,
  now: Instant,
): Promise<SiteSnapshot | null> {
  const narrow = await file.load(siteId, { fromAt: now, toAt: now }, now)
  const homeSeconds = narrow?.policy.returnHomeAfterSeconds ?? 0
  const window = {
    fromAt: instantPlusSeconds(fromAt, -(BEFORE_SECONDS + homeSeconds)),
    toAt: instantPlusSeconds(toAt, TURN_LONGEST_SECONDS),
  }
  return narrow && file.load(siteId, window, now)
}

/** The bookings that begin in the piece, and their turns. */
function idsOf({ bookings, turns }: SiteSnapshot, { fromAt, toAt }: HalfOpenInterval): ReadonlySet<string> {
  const own = bookings.filter(({ doorsAt }) => doorsAt >= fromAt && doorsAt < toAt)
  const ownIds = new Set<string>(own.map(({ id }) => id))
  return new Set<string>([
    ...ownIds,
    ...own.flatMap(({ turnId }) => [turnId, homeTurnId(turnId)]),
    ...turns.filter(({ bookingId }) => ownIds.has(bookingId)).map(({ id }) => id),
  ])
}

/** Sentences name what they are about; one that names neither a booking nor a turn is about all that is loaded. */
function isAbout(sentence: string, ids: ReadonlySet<string>): boolean {
  const named = sentence.match(/\b(?:booking|turn)_[a-z0-9-]+/g) ?? []
  return named.length === 0 || named.some((id) => ids.has(id))
}
