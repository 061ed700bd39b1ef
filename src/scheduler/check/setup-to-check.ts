import type { Closure } from '../../domain/closure.ts'
import type { PersonId } from '../../domain/ids.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'

export interface SetupToCheck extends SiteSetup {
  readonly closures: readonly Closure[]
  /** Names are kept apart from people, so that they can be erased. Somebody without one is called by id. */
  readonly personNames?: ReadonlyMap<PersonId, string>
}
