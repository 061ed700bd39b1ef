import type { Instant } from '../domain/instant.ts'
import type { Commit, Store } from '../store/store.ts'
import type { Decider } from '../worker/decider.ts'

/** What each kind of work is given. */
export interface WorkParts {
  readonly store: Store
  readonly decider: Pick<Decider, 'decide'>
  readonly clock: () => Instant
  /** Writes when it is its turn. @throws Conflict */
  readonly commit: (commit: Omit<Commit, 'actorId'>) => Promise<void>
}

/** What came of one look: nothing was to be done; something was looked at and stands as it stood; or something was written. */
export type Step = 'idle' | 'looked' | 'wrote'
