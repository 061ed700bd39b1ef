/**
 * What the rest of the program knows of the database. One implementation; the engine below it knows which
 * database it is. Reads never change anything; everything that changes goes through `commit`.
 */
import type { Booking } from '../domain/booking.ts'
import type { Closure } from '../domain/closure.ts'
import type { Changes } from '../domain/decision.ts'
import type { Equipment } from '../domain/equipment.ts'
import type { Furnishing } from '../domain/furnishing.ts'
import type { HalfOpenInterval } from '../domain/half-open-interval.ts'
import type { ActorId, BookingId, RoomId, SiteId, TurnId } from '../domain/ids.ts'
import type { Instant } from '../domain/instant.ts'
import type { Layout } from '../domain/layout.ts'
import type { Person, PersonDetails } from '../domain/person.ts'
import type { Policy } from '../domain/policy.ts'
import type { Room } from '../domain/room.ts'
import type { Section } from '../domain/section.ts'
import type { Shift } from '../domain/shift.ts'
import type { Site } from '../domain/site.ts'
import type { SiteSetup, SiteSnapshot } from '../domain/snapshot.ts'
import type { StoragePlace } from '../domain/storage-place.ts'
import type { Turn } from '../domain/turn.ts'

/** The parts of the set-up by the name of their table, with what each row is. */
export interface SetupRows {
  section: Section
  room: Room
  layout: Layout
  furnishing: Furnishing
  storagePlace: StoragePlace
  equipment: Equipment
  person: Person
  shift: Shift
  closure: Closure
  policy: Policy
}
export type SetupKind = keyof SetupRows

/** A set-up row to be added. A new policy takes the place of the one in force, which is retired. */
export type SetupAddition = { [Kind in SetupKind]: { kind: Kind; row: SetupRows[Kind] } }[SetupKind]

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
  /** The version the decision was made on; when the site has moved on since, Conflict is thrown. null: adds only, take whatever version there is. */
  readonly planningVersionExpected: number | null
  readonly actorId: ActorId
  /** What was done, for the audit: `book`, `change`, `cancel`, `close`, `add-room` … */
  readonly action: string
  readonly reason: string | null
  readonly at: Instant
  readonly site?: Site
  readonly setup?: readonly SetupAddition[]
  readonly personDetails?: readonly PersonDetails[]
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
}

/**
 * Rows by table and id, as they stand now: what the audit speaks of. A site carries its planning version, a set-up row
 * when it was retired, and a turn the hash of its plan in place of the plan.
 */
export type RecordedState = ReadonlyMap<string, ReadonlyMap<string, unknown>>

/** Every list is in a stated, total order. A list throws PageKeyUnknown for an `after` that it never gave. */
export interface Store {
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
  /** Rows that are not retired, by id. */
  setupRows<Kind extends SetupKind>(
    siteId: SiteId,
    kind: Kind,
    page: PageRequest,
  ): Promise<Page<SetupRows[Kind]>>
  /** Retired ones too. */
  setupRow<Kind extends SetupKind>(siteId: SiteId, kind: Kind, id: string): Promise<SetupRows[Kind] | null>
  personDetails(siteId: SiteId): Promise<readonly PersonDetails[]>
  /** Those that touch the window, cancelled ones included, by doors, then id. */
  bookings(
    siteId: SiteId,
    window: HalfOpenInterval,
    filter: { readonly roomId: RoomId | null },
    page: PageRequest,
  ): Promise<Page<Booking>>
  booking(siteId: SiteId, bookingId: BookingId): Promise<Booking | null>
  /** Those not dropped whose span from release to doors touches the window, by doors, then id. */
  turns(siteId: SiteId, window: HalfOpenInterval, page: PageRequest): Promise<Page<Turn>>
  turn(siteId: SiteId, turnId: TurnId): Promise<Turn | null>
  /** Turns that fail, with doors still to come, nearest doors first. */
  failingTurns(siteId: SiteId, fromAt: Instant, page: PageRequest): Promise<Page<Turn>>
  /** Oldest first. */
  audit(siteId: SiteId, page: PageRequest): Promise<Page<AuditEntry>>
  closures(siteId: SiteId, window: HalfOpenInterval): Promise<readonly Closure[]>
  planningVersion(siteId: SiteId): Promise<number | null>
  /** Every row of the site, to compare with what replaying its audit gives. Reads everything: for checks only. */
  recordedState(siteId: SiteId): Promise<RecordedState>
  /** Whether the database answers and is migrated to what this program knows. */
  isReady(): Promise<boolean>
  close(): void
}
