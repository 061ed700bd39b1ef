/** The account store over whatever engine. */
import type { CommitStatements } from '../commit-statements.ts'
import type { Engine } from '../engine.ts'
import { accountSteps } from './account-steps.ts'
import type { AccountStore } from './account-store.ts'
import { linkStore } from './link-store.ts'
import { peopleStore } from './people-store.ts'
import { sessionStore } from './session-store.ts'
import { tokenStore } from './token-store.ts'
import { troubleStore } from './trouble-store.ts'

export function sqlAccountStore(engine: Engine, statements: CommitStatements): AccountStore {
  const steps = accountSteps(engine, statements)
  return {
    ...peopleStore(engine, steps),
    ...sessionStore(engine, steps),
    ...tokenStore(engine, steps),
    ...linkStore(engine, steps),
    ...troubleStore(engine),
  }
}
