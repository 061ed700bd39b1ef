/** Whose session or token it is. */
import type { AccessToken } from '../domain/accounts/access-token.ts'
import type { Account } from '../domain/accounts/account.ts'
import { instantPlusSeconds } from '../domain/instant.ts'
import type { Accounts } from './accounts.ts'
import { isSeenLongAgo, isSessionOver } from './session-times.ts'

/** null: unknown, or over, and then ended */
export async function accountOfSession(accounts: Accounts, secret: string): Promise<Account | null> {
  const { store, secrets, clock } = accounts
  const hash = secrets.hashOf('session', secret)
  const session = hash === null ? null : await store.session(hash)
  if (hash === null || session === null) return null
  const now = clock()
  if (isSessionOver(session, now)) {
    await store.endSession(hash)
    return null
  }
  if (isSeenLongAgo(session.seenAt, now)) await store.touchSession(hash, now)
  return session.account
}

const USED_EVERY_SECONDS = 60

/** null: unknown, revoked or over */
export async function tokenInForce(accounts: Accounts, secret: string): Promise<AccessToken | null> {
  const { store, secrets, clock } = accounts
  const hash = secrets.hashOf('token', secret)
  const token = hash === null ? null : await store.token(hash)
  const now = clock()
  if (!token || token.revokedAt !== null || (token.expiresAt !== null && token.expiresAt <= now)) return null
  const { lastUsedAt } = token
  if (lastUsedAt === null || instantPlusSeconds(lastUsedAt, USED_EVERY_SECONDS) <= now)
    await store.touchToken(token.id, now)
  return token
}
