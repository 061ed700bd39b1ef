/** One thing that might help, before it is known whether it does. */

import type { Instant } from '../../../domain/instant.ts'
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import type { Turn } from '../../../domain/turn.ts'
import type { HelpChange } from '../../../domain/what-would-help.ts'
import type { Circumstances } from '../circumstances.ts'
import type { CrewMember } from '../crew-members.ts'
import type { Search } from '../search.ts'

export interface HelpAsked {
  readonly snapshot: SiteSnapshot
  readonly turn: Turn
  /** As things are. */
  readonly circumstances: Circumstances
  readonly crew: readonly CrewMember[]
  /** By hands beyond the crew: when it is ready with them; null: not at all. */
  readonly readyAtWith: ReadonlyMap<number, Instant | null>
  readonly search: Search
}

export interface Candidate {
  readonly change: HelpChange
  /** Begins a sentence. */
  readonly what: string
  /** When the turn is ready with it, by looking for a plan; null: none is found. */
  readonly readyAt: () => Instant | null
  /** Whatever is planned as things are can be done with it just the same: a search that finds worse has not looked enough. */
  readonly isNeverLater: boolean
}

export const beginning = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
