/** Who may sign in, and with what. Secrets are kept as keyed hashes only. */
import type { Kit } from '../kit.sqlite.ts'
import type { siteTable } from '../site-table.ts'

export function makeAccountTables(k: Kit, site: ReturnType<typeof siteTable>) {
  const account = k.table('account', {
    id: k.str().primaryKey(),
    passwordHash: k.str(),
    keepsAll: k.bool().notNull(),
    createdAt: k.instant().notNull(),
    removedAt: k.instant(),
  })
  const accountId = () =>
    k
      .str()
      .notNull()
      .references(() => account.id)
  /** Personal: may be erased, and stands nowhere else. */
  const accountDetails = k.table('account_details', {
    accountId: accountId().primaryKey(),
    email: k.str().notNull().unique(),
    name: k.str().notNull(),
  })
  const membership = k.table(
    'membership',
    {
      accountId: accountId(),
      siteId: k
        .str()
        .notNull()
        .references(() => site.id),
      role: k.str().notNull(),
      personId: k.str(),
    },
    (t) => [
      k.primaryKey({ columns: [t.accountId, t.siteId] }),
      k.index('membership_site').on(t.siteId, t.accountId),
    ],
  )
  const session = k.table(
    'session',
    {
      hash: k.str().primaryKey(),
      accountId: accountId(),
      createdAt: k.instant().notNull(),
      seenAt: k.instant().notNull(),
    },
    (t) => [k.index('session_account').on(t.accountId)],
  )
  const accessToken = k.table(
    'access_token',
    {
      id: k.str().primaryKey(),
      hash: k.str().notNull().unique(),
      siteId: k.str().references(() => site.id),
      role: k.str().notNull(),
      name: k.str().notNull(),
      createdBy: k.str().notNull(),
      createdAt: k.instant().notNull(),
      expiresAt: k.instant(),
      lastUsedAt: k.instant(),
      revokedAt: k.instant(),
    },
    (t) => [k.index('access_token_site').on(t.siteId, t.id)],
  )
  const oneTimeLink = k.table(
    'one_time_link',
    {
      id: k.str().primaryKey(),
      hash: k.str().notNull().unique(),
      purpose: k.str().notNull(),
      accountId: k.str().references(() => account.id),
      siteId: k.str().references(() => site.id),
      role: k.str(),
      personId: k.str(),
      createdBy: k.str(),
      createdAt: k.instant().notNull(),
      expiresAt: k.instant().notNull(),
      usedAt: k.instant(),
      revokedAt: k.instant(),
    },
    (t) => [k.index('one_time_link_site').on(t.siteId, t.id)],
  )
  /** Attempts to sign in that failed, by account and by address, hashed. */
  const signInTrouble = k.table('sign_in_trouble', {
    key: k.str().primaryKey(),
    failures: k.int().notNull(),
    lastAt: k.instant().notNull(),
  })
  return { account, accountDetails, membership, session, accessToken, oneTimeLink, signInTrouble }
}
