/** What signing in and everything about accounts works with. */
import type { Instant } from '../domain/instant.ts'
import type { AccountStore } from '../store/accounts/account-store.ts'
import type { Mail } from './mail.ts'
import type { Secrets } from './secrets.ts'

export interface Accounts {
  readonly store: AccountStore
  readonly secrets: Secrets
  readonly mail: Mail
  readonly clock: () => Instant
  /** A fresh id that begins with the prefix and an underscore. */
  readonly newId: (prefix: string) => string
  /** Where people reach the service, without a slash at the end. */
  readonly publicUrl: () => string
}
