/**
 * What a look over a whole database file needs of it: rows as they lie there, all of them as of one moment. JSON is
 * handed out as text, so that a row that cannot be read can still be named.
 */
import type { SiteId } from '../domain/ids.ts'
import type { SetupKind } from '../domain/setup.ts'
import type { AuditContent } from './audit-hash.ts'
import type { SnapshotLoader } from './load-snapshot.ts'
import type { RecordedState } from './store.ts'

/** By the names of the columns. */
export type StoredColumns = Readonly<Record<string, unknown>>

/** What a column holds that is meant to be JSON. */
export class JsonText {
  readonly text: string

  constructor(text: string) {
    this.text = text
  }
}

/** Lists come in pages: from after what is named, at most `most` rows. */
export interface StoredFile {
  /** What the database finds wrong with its own pages, indexes and checks, as it says it. */
  damage(most: number): string[]
  /** Rows that refer to rows that are not there. */
  dangling(most: number): DanglingReference[]
  /** How many rows there are of what a coordinator knows. */
  counts(): {
    readonly sites: number
    readonly bookings: number
    readonly turns: number
    readonly audit: number
  }
  siteIds(): string[]
  site(siteId: SiteId): StoredColumns | null
  /** By id. */
  rows(table: SetupKind | 'booking' | 'turn', siteId: SiteId, afterId: string, most: number): StoredColumns[]
  /** Of which sections the rooms are made, by room, then section. */
  roomSections(siteId: SiteId): { readonly roomId: string; readonly sectionId: string }[]
  /** By person. */
  personDetails(siteId: SiteId): StoredColumns[]
  /** By turn. */
  plans(siteId: SiteId, afterTurnId: string, most: number): StoredPlan[]
  /** What is held by the bookings whose ids lie between these two or are one of them, by booking, then section. */
  occupancy(siteId: SiteId, firstBookingId: string, lastBookingId: string): StoredOccupancy[]
  /** What keeps others out and begins before all that came earlier in its section has ended, by section, then begin. */
  overlaps(siteId: SiteId, most: number): OccupancyOverlap[]
  /** Oldest first. */
  audit(siteId: SiteId, afterSequence: number, most: number): StoredColumns[]
  /** Entries of all sites, oldest first. */
  auditChain(afterSequence: number, most: number): ChainedEntry[]
  /** The highest number that was ever given to an entry, as far as the database knows; 0: none was. */
  auditNumberHighest(): number
  /** Oldest first. */
  changeLog(siteId: SiteId, afterSequence: number, most: number): StoredLogEntry[]
  /** Answers that are kept to be sent again, with the number of their row, in the order of those. */
  answers(afterNumber: number, most: number): StoredColumns[]
  /** As the service loads it; each call forgets what earlier ones have read, the set-up apart. */
  readonly load: SnapshotLoader
  /** @throws ZodError when a row of the site cannot be read */
  recordedState(siteId: SiteId): Promise<RecordedState>
  close(): void
}

export interface DanglingReference {
  readonly table: string
  readonly rowNumber: number | null
  readonly parent: string
}

export interface ChainedEntry extends AuditContent {
  /** null: it was never linked. */
  readonly hash: string | null
}

export interface StoredPlan {
  readonly turnId: string
  readonly hash: string
  readonly document: string
}

export interface StoredOccupancy {
  readonly bookingId: string
  readonly sectionId: string
  readonly fromAt: number
  readonly toAt: number
  readonly blocking: boolean
}

export interface OccupancyOverlap {
  readonly sectionId: string
  readonly bookingId: string
  /** The first one that holds the section then. */
  readonly otherBookingId: string
}

export interface StoredLogEntry {
  readonly sequence: number
  readonly auditSequence: number
  readonly at: number
  readonly resourceKind: string
  readonly resourceId: string
}
