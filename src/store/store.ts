/**
 * What the rest of the program knows of the database. One implementation; the engine below it knows which
 * database it is. Reads never change anything; everything that changes goes through `commit`.
 */
import type { Booking } from '../domain/booking.ts'
import type { Closure } from '../domain/closure.ts'
import type { Changes } from '../domain/decision.ts'
import type { HalfOpenInterval } from '../domain/half-open-interval.ts'
import type { ActorId, BookingId, LayoutId, LinkId, PersonId, RoomId, SiteId, TurnId } from '../domain/ids.ts'
import type { Instant } from '../domain/instant.ts'
import type { PersonDetails } from '../domain/person.ts'
import type { SetupKind, SetupRows, SetupWrite } from '../domain/setup.ts'
import type { Site } from '../domain/site.ts'
import type { SiteSetup, SiteSnapshot } from '../domain/snapshot.ts'
import type { Turn } from '../domain/turn.ts'
import type { AccountStore } from './accounts/account-store.ts'

/** A set-up row as it is stored: with the version that If-Match names, and since when it is out of use. */
export interface StoredRow<Row> {
  readonly row: Row
  /** 1 for a new row, one more with each change. */
  readonly version: number
  readonly retiredAt: Instant | null
}

/** What a stored answer is found by, and what is answered again. */
export interface IdempotentAnswer {
  readonly actorId: ActorId
  /** Method and path. */
  readonly route: string
  readonly key: string
  /** SHA-256 of the body as it came, in hex. */
  readonly bodyHash: string
  readonly status: number
  readonly headers: Readonly<Record<string, string>>
  readonly body: string
}

/** All of it is written, or nothing. */
export interface Commit {
  readonly siteId: SiteId
  /**
   * The version the decision was made on; when the site has moved on since, Conflict is thrown. null: take whatever version
   * there is, for what rests on no decision. Set-up rows that are changed or retired must be as they were read in any case.
   */
  readonly planningVersionExpected: number | null
  readonly actorId: ActorId
  /** What was done, for the audit: `book`, `change`, `cancel`, `close`, `add-room` … */
  readonly action: string
  readonly reason: string | null
  readonly at: Instant
  readonly site?: Site
  /**
   * Together with those of `changes`; a row comes once. `before` is the whole row as it was read: when it has been changed
   * or retired since, Conflict is thrown. A room that is made of other sections takes its coming bookings along.
   */
  readonly setup?: readonly SetupWrite[]
  readonly personDetails?: readonly PersonDetails[]
  /** Their names and contacts are deleted, from answers that are kept to be sent again too. Retired people as well. */
  readonly personDetailsErased?: readonly PersonId[]
  readonly changes?: Changes
  readonly answer?: IdempotentAnswer
}

/** Somebody else was faster, or a guard of the database refused. Load and decide again. */
export class Conflict extends Error {
  override name = 'Conflict'
}

/** A row names a room, a layout, a person … that is not there in this site. Nothing was written. */
export class ReferenceMissing extends Error {
  override name = 'ReferenceMissing'
}

/** `after` of a page is not a key that this list has given. */
export class PageKeyUnknown extends Error {
  override name = 'PageKeyUnknown'
}

/** A page of a list in its stated order; `after` is the key of the last row seen. */
export interface PageRequest {
  readonly limit: number
  readonly after: string | null
}
export interface Page<Row> {
  readonly items: readonly Row[]
  readonly nextAfter: string | null
}

export interface AuditEffect {
  readonly table: string
  readonly id: string
  readonly before: unknown
  readonly after: unknown
}
export interface AuditEntry {
  readonly sequence: number
  readonly siteId: SiteId
  readonly at: Instant
  readonly actorId: ActorId
  readonly action: string
  readonly reason: string | null
  readonly planningVersion: number
  readonly effects: readonly AuditEffect[]
  /** The hash of the entry before it, of whichever site; null: it is the first of all. */
  readonly previousHash: string | null
  /** Of all that this entry says, as `audit-hash.ts` has it. */
  readonly hash: string
}

/** What became of one row by one commit, for those who listen: who it was and what it says is read at the resource. */
export interface ChangeLogEntry {
  /** Of all sites together; later ones are higher. */
  readonly sequence: number
  readonly siteId: SiteId
  /** The entry of the audit that was written with it. */
  readonly auditSequence: number
  readonly at: Instant
  /** A part of the set-up, or `site`, `personDetails`, `booking`, `turn`. */
  readonly resourceKind: string
  readonly resourceId: string
  readonly what: string
  /** Of the site, as it is now. */
  readonly zone: string
}

/**
 * Rows by table and id, as they stand now: what the audit speaks of. A site carries its planning version, a set-up row
 * when it was retired, and a turn the hash of its plan in place of the plan; `judging` tells how far turns are judged.
 */
export type RecordedState = ReadonlyMap<string, ReadonlyMap<string, unknown>>

/** A hold whose time is over. */
export interface HoldExpired {
  readonly siteId: SiteId
  readonly bookingId: BookingId
  readonly holdExpiresAt: Instant
}

/** A turn, as much of it as tells where it comes in time. */
export interface TurnDue {
  readonly id: TurnId
  readonly dueAt: Instant
  readonly bookingId: BookingId
}

/** Every list is in a stated, total order. A list throws PageKeyUnknown for an `after` that it never gave. */
export interface Store {
  /** Who may sign in, and with what. */
  readonly accounts: AccountStore
  /**
   * Set-up and everything within the window, at one version: see SiteSnapshot for what is complete.
   * @returns null when there is no such site, or it has no policy yet
   */
  load(siteId: SiteId, window: HalfOpenInterval, now: Instant): Promise<SiteSnapshot | null>
  /** @returns the planning version after the commit @throws Conflict @throws ReferenceMissing */
  commit(commit: Commit): Promise<number>
  /** Keep an answer that wrote nothing (a stored 409). The first one stored under a key stays. */
  keepAnswer(answer: IdempotentAnswer, at: Instant): Promise<void>
  answerFor(actorId: ActorId, route: string, key: string): Promise<IdempotentAnswer | null>

  /** By name, then id. */
  sites(page: PageRequest): Promise<Page<Site>>
  site(siteId: SiteId): Promise<Site | null>
  /** null when there is no such site, or it has no policy yet. */
  setup(siteId: SiteId): Promise<SiteSetup | null>
  /** Rows in force, or with `retired` all of them, by id. */
  setupRows<Kind extends SetupKind>(
    siteId: SiteId,
    kind: Kind,
    filter: { readonly retired: boolean },
    page: PageRequest,
  ): Promise<Page<StoredRow<SetupRows[Kind]>>>
  /** Retired ones too. */
  setupRow<Kind extends SetupKind>(
    siteId: SiteId,
    kind: Kind,
    id: string,
  ): Promise<StoredRow<SetupRows[Kind]> | null>
  /** Bookings that are not cancelled and not clear before `fromAt`, in one of the rooms or with one of the layouts; by doors, then id; at most `most`. */
  comingBookings(
    siteId: SiteId,
    fromAt: Instant,
    use: { readonly roomIds: readonly RoomId[]; readonly layoutIds: readonly LayoutId[] },
    most: number,
  ): Promise<readonly Booking[]>
  personDetails(siteId: SiteId): Promise<readonly PersonDetails[]>
  /** Those that touch the window, cancelled ones included, by doors, then id. */
  bookings(
    siteId: SiteId,
    window: HalfOpenInterval,
    filter: { readonly roomId: RoomId | null },
    page: PageRequest,
  ): Promise<Page<Booking>>
  booking(siteId: SiteId, bookingId: BookingId): Promise<Booking | null>
  /** Those of the link that are not cancelled, by doors, then id: as many as a link may have, which is few. */
  linkedBookings(siteId: SiteId, linkId: LinkId): Promise<readonly Booking[]>
  /** Holds of all sites whose time is over by `now`, the one that ran out first in front, then by id; at most `most`. */
  holdsExpired(now: Instant, most: number): Promise<readonly HoldExpired[]>
  /** When the next hold of any site runs out, later than `now`; null: there is none. */
  nextHoldExpiry(now: Instant): Promise<Instant | null>
  /** Taken at somebody's risk, not cancelled and clear after `fromAt`; by doors, then id. */
  bookingsAtRisk(siteId: SiteId, fromAt: Instant, page: PageRequest): Promise<Page<Booking>>
  /** Those not dropped whose span from release to doors touches the window, by doors, then id. */
  turns(siteId: SiteId, window: HalfOpenInterval, page: PageRequest): Promise<Page<Turn>>
  turn(siteId: SiteId, turnId: TurnId): Promise<Turn | null>
  /** Turns that fail, with doors still to come, nearest doors first. */
  failingTurns(siteId: SiteId, fromAt: Instant, page: PageRequest): Promise<Page<Turn>>
  /** Turns not dropped that are warned of since some moment, due at `fromAt` or later; by when they are due, then id. */
  warnedTurns(siteId: SiteId, fromAt: Instant, page: PageRequest): Promise<Page<Turn>>
  /** Turns due from here on are yet to be looked at after a change of the hall; null: all are. */
  judgedThroughAt(siteId: SiteId): Promise<Instant | null>
  /** Turns not dropped, due then or later; by when they are due, then id; at most `most`. */
  turnsDueFrom(siteId: SiteId, dueFromAt: Instant, most: number): Promise<readonly TurnDue[]>
  countTurnsDueFrom(siteId: SiteId, dueFromAt: Instant): Promise<number>
  /**
   * Ready turns that no longer search has gone over as they stand, due at `fromAt` or later and before `toAt`, with a plan
   * that starts after `fromAt`; by when they are due, then id; at most `most`.
   */
  turnsToPolish(siteId: SiteId, fromAt: Instant, toAt: Instant, most: number): Promise<readonly TurnDue[]>
  /** Doors of the last of the next `most` turns to come; null: there are none. */
  lastTurnDueAt(siteId: SiteId, fromAt: Instant, most: number): Promise<Instant | null>
  /** Oldest first. */
  audit(siteId: SiteId, page: PageRequest): Promise<Page<AuditEntry>>
  /** What came after this sequence, of these sites (null: of all), oldest first, at most `most`. */
  changesAfter(
    siteIds: readonly SiteId[] | null,
    sequence: number,
    most: number,
  ): Promise<readonly ChangeLogEntry[]>
  /** The sequence of the newest change of any site; 0: there is none. */
  newestChange(): Promise<number>
  /**
   * Calls the listener after each commit that was written here; those of other processes are found by looking only. It
   * is called before the commit resolves, and must neither throw nor take long.
   * @returns what ends it
   */
  onCommit(listener: () => void): () => void
  closures(siteId: SiteId, window: HalfOpenInterval): Promise<readonly Closure[]>
  planningVersion(siteId: SiteId): Promise<number | null>
  /** Every row of the site, to compare with what replaying its audit gives. Reads everything: for checks only. */
  recordedState(siteId: SiteId): Promise<RecordedState>
  /** Whether the database answers and is migrated to what this program knows. */
  isReady(): Promise<boolean>
  close(): void
}
