/** The account store over whatever engine. */
import { and, asc, eq, gt, isNull, lt, sql } from 'drizzle-orm'
import { AccessToken } from '../../domain/accounts/access-token.ts'
import { Account, Membership } from '../../domain/accounts/account.ts'
import { OneTimeLink } from '../../domain/accounts/one-time-link.ts'
import type { ActorId } from '../../domain/ids.ts'
import { Instant } from '../../domain/instant.ts'
import type { CommitStatements } from '../commit-statements.ts'
import { type Db, type Engine, once, type Step } from '../engine.ts'
import type { AccountAudit, AccountStore, SecretHash } from './account-store.ts'

const LINK_GONE = 'The link is used, revoked or over'

export function sqlAccountStore(engine: Engine, { addAudit }: CommitStatements): AccountStore {
  const { db, tables } = engine
  const { account, accountDetails, membership, session, accessToken, oneTimeLink, signInTrouble } = tables

  // Asked with every request: built once, since building them takes longer than running them.
  const membershipsQuery = db
    .select()
    .from(membership)
    .where(eq(membership.accountId, sql.placeholder('id')))
    .orderBy(asc(membership.siteId))
    .prepare()
  const sessionQuery = db
    .select({ session, row: account, details: accountDetails })
    .from(session)
    .innerJoin(account, and(eq(account.id, session.accountId), isNull(account.removedAt)))
    .leftJoin(accountDetails, eq(accountDetails.accountId, account.id))
    .where(eq(session.hash, sql.placeholder('hash')))
    .prepare()
  const tokenQuery = db
    .select()
    .from(accessToken)
    .where(eq(accessToken.hash, sql.placeholder('hash')))
    .prepare()

  const membershipsOf = async (id: ActorId) => {
    const rows = await membershipsQuery.execute({ id })
    return rows.map((row) => Membership.parse(row))
  }
  const accountFrom = async (
    row: typeof account.$inferSelect,
    details: typeof accountDetails.$inferSelect | null,
  ): Promise<Account> =>
    Account.parse({
      ...row,
      details: details && { name: details.name, email: details.email },
      memberships: await membershipsOf(row.id as ActorId),
    })
  const withDetails = () =>
    db
      .select({ row: account, details: accountDetails })
      .from(account)
      .leftJoin(accountDetails, eq(accountDetails.accountId, account.id))
  const one = async (found: ReturnType<ReturnType<typeof withDetails>['where']>) => {
    const [first] = await found
    return first ? accountFrom(first.row, first.details) : null
  }
  const audited = (audit: AccountAudit): Step => ({
    run: addAudit({ reason: null, ...audit }),
    rows: once('The audit took no entry'),
  })
  const useUp = (tx: Db, hash: SecretHash | null | undefined, at: Instant): Step[] =>
    hash === null || hash === undefined
      ? []
      : [
          {
            run: tx
              .update(oneTimeLink)
              .set({ usedAt: at })
              .where(and(eq(oneTimeLink.hash, hash), inForce(at)))
              .returning({ id: oneTimeLink.id }),
            rows: once(LINK_GONE),
          },
        ]
  const inForce = (at: Instant) =>
    and(isNull(oneTimeLink.usedAt), isNull(oneTimeLink.revokedAt), gt(oneTimeLink.expiresAt, at))
  const putMembership = (tx: Db, id: ActorId, values: Membership): Step => ({
    run: tx
      .insert(membership)
      .values({ accountId: id, ...values })
      .onConflictDoUpdate({
        target: [membership.accountId, membership.siteId],
        set: { role: values.role, personId: values.personId },
      })
      .returning({ id: membership.accountId }),
  })

  return {
    async hasAccounts() {
      const [first] = await db
        .select({ id: account.id })
        .from(account)
        .where(isNull(account.removedAt))
        .limit(1)
      return first !== undefined
    },
    account: (id) => one(withDetails().where(eq(account.id, id))),
    accountByEmail: (email) => one(withDetails().where(eq(accountDetails.email, email))),
    async passwordHash(id) {
      const [row] = await db
        .select({ hash: account.passwordHash })
        .from(account)
        .where(and(eq(account.id, id), isNull(account.removedAt)))
      return row?.hash ?? null
    },
    async members(siteId) {
      const rows = await db
        .select({ row: account, details: accountDetails })
        .from(account)
        .innerJoin(membership, and(eq(membership.accountId, account.id), eq(membership.siteId, siteId)))
        .leftJoin(accountDetails, eq(accountDetails.accountId, account.id))
        .orderBy(asc(accountDetails.name), asc(account.id))
      return Promise.all(rows.map(({ row, details }) => accountFrom(row, details)))
    },

    async addAccount({ id, details, passwordHash, keepsAll, membership: first }, at, link, audit) {
      await engine.write((tx) => [
        ...useUp(tx, link, at),
        {
          run: tx
            .insert(account)
            .values({ id, passwordHash, keepsAll, createdAt: at, removedAt: null })
            .returning({ id: account.id }),
        },
        {
          run: tx
            .insert(accountDetails)
            .values({ accountId: id, ...details })
            .returning({ id: accountDetails.accountId }),
        },
        ...(first ? [putMembership(tx, id, first)] : []),
        ...(audit ? [audited(audit)] : []),
      ])
    },
    async changeDetails(id, details) {
      await engine.write((tx) => [
        {
          run: tx
            .update(accountDetails)
            .set(details)
            .where(eq(accountDetails.accountId, id))
            .returning({ id: accountDetails.accountId }),
          rows: once(`${id} has no details`),
        },
      ])
    },
    async setPassword(id, passwordHash, at, link) {
      await engine.write((tx) => [
        ...useUp(tx, link, at),
        {
          run: tx
            .update(account)
            .set({ passwordHash })
            .where(and(eq(account.id, id), isNull(account.removedAt)))
            .returning({ id: account.id }),
          rows: once(`${id} is removed`),
        },
        {
          run: tx.delete(session).where(eq(session.accountId, id)).returning({ hash: session.hash }),
        },
      ])
    },
    async removeAccount(id, at, audits) {
      await engine.write((tx) => [
        {
          run: tx
            .update(account)
            .set({ removedAt: at, passwordHash: null })
            .where(and(eq(account.id, id), isNull(account.removedAt)))
            .returning({ id: account.id }),
          rows: once(`${id} is removed already`),
        },
        {
          run: tx
            .delete(accountDetails)
            .where(eq(accountDetails.accountId, id))
            .returning({ id: accountDetails.accountId }),
        },
        {
          run: tx
            .delete(membership)
            .where(eq(membership.accountId, id))
            .returning({ id: membership.accountId }),
        },
        { run: tx.delete(session).where(eq(session.accountId, id)).returning({ hash: session.hash }) },
        ...audits.map(audited),
      ])
    },
    async setMembership(id, values, audit, link) {
      await engine.write((tx) => [
        ...useUp(tx, link, audit.at),
        putMembership(tx, id, values),
        audited(audit),
      ])
    },
    async endMembership(id, siteId, audit) {
      await engine.write((tx) => [
        {
          run: tx
            .delete(membership)
            .where(and(eq(membership.accountId, id), eq(membership.siteId, siteId)))
            .returning({ id: membership.accountId }),
          rows: once(`${id} is no member of ${siteId}`),
        },
        audited(audit),
      ])
    },

    async addSession(hash, accountId, at, { link, overBefore }) {
      await engine.write((tx) => [
        ...useUp(tx, link, at),
        {
          run: tx.delete(session).where(lt(session.createdAt, overBefore)).returning({ hash: session.hash }),
        },
        {
          run: tx
            .insert(session)
            .values({ hash, accountId, createdAt: at, seenAt: at })
            .returning({ hash: session.hash }),
        },
      ])
    },
    async session(hash) {
      const [row] = await sessionQuery.execute({ hash })
      if (!row) return null
      return {
        account: await accountFrom(row.row, row.details),
        createdAt: Instant.parse(row.session.createdAt),
        seenAt: Instant.parse(row.session.seenAt),
      }
    },
    async touchSession(hash, seenAt) {
      await engine.write((tx) => [
        {
          run: tx
            .update(session)
            .set({ seenAt })
            .where(eq(session.hash, hash))
            .returning({ hash: session.hash }),
        },
      ])
    },
    async endSession(hash) {
      await engine.write((tx) => [
        { run: tx.delete(session).where(eq(session.hash, hash)).returning({ hash: session.hash }) },
      ])
    },
    async endSessions(id) {
      await engine.write((tx) => [
        { run: tx.delete(session).where(eq(session.accountId, id)).returning({ hash: session.hash }) },
      ])
    },

    async addToken(token, hash, audit) {
      await engine.write((tx) => [
        {
          run: tx
            .insert(accessToken)
            .values({ ...token, hash })
            .returning({ id: accessToken.id }),
        },
        ...(audit ? [audited(audit)] : []),
      ])
    },
    async token(hash) {
      const [row] = await tokenQuery.execute({ hash })
      return row ? AccessToken.parse(row) : null
    },
    async tokens(siteId) {
      const rows = await db
        .select()
        .from(accessToken)
        .where(eq(accessToken.siteId, siteId))
        .orderBy(asc(accessToken.name), asc(accessToken.id))
      return rows.map((row) => AccessToken.parse(row))
    },
    async touchToken(id, lastUsedAt) {
      await engine.write((tx) => [
        {
          run: tx
            .update(accessToken)
            .set({ lastUsedAt })
            .where(eq(accessToken.id, id))
            .returning({ id: accessToken.id }),
        },
      ])
    },
    async revokeToken(siteId, id, at, audit) {
      const isIt = and(eq(accessToken.id, id), eq(accessToken.siteId, siteId), isNull(accessToken.revokedAt))
      const [known] = await db.select({ id: accessToken.id }).from(accessToken).where(isIt)
      if (!known) return false
      await engine.write((tx) => [
        {
          run: tx.update(accessToken).set({ revokedAt: at }).where(isIt).returning({ id: accessToken.id }),
          rows: once(`${id} is revoked already`),
        },
        audited(audit),
      ])
      return true
    },

    async addLink(link, hash, audit) {
      await engine.write((tx) => [
        {
          run: tx
            .insert(oneTimeLink)
            .values({ ...link, hash })
            .returning({ id: oneTimeLink.id }),
        },
        ...(audit ? [audited(audit)] : []),
      ])
    },
    async link(hash, at) {
      const [row] = await db
        .select()
        .from(oneTimeLink)
        .where(and(eq(oneTimeLink.hash, hash), inForce(at)))
      return row ? OneTimeLink.parse(row) : null
    },
    async invitations(siteId) {
      const rows = await db
        .select()
        .from(oneTimeLink)
        .where(and(eq(oneTimeLink.siteId, siteId), eq(oneTimeLink.purpose, 'invitation')))
        .orderBy(asc(oneTimeLink.createdAt), asc(oneTimeLink.id))
      return rows.map((row) => OneTimeLink.parse(row))
    },
    async revokeInvitation(siteId, id, at, audit) {
      const isIt = and(eq(oneTimeLink.id, id), eq(oneTimeLink.siteId, siteId), inForce(at))
      const [known] = await db.select({ id: oneTimeLink.id }).from(oneTimeLink).where(isIt)
      if (!known) return false
      await engine.write((tx) => [
        {
          run: tx.update(oneTimeLink).set({ revokedAt: at }).where(isIt).returning({ id: oneTimeLink.id }),
          rows: once(LINK_GONE),
        },
        audited(audit),
      ])
      return true
    },
    async revokeLinks(purpose, accountId, at) {
      const isOfAccount =
        accountId === null ? isNull(oneTimeLink.accountId) : eq(oneTimeLink.accountId, accountId)
      await engine.write((tx) => [
        {
          run: tx
            .update(oneTimeLink)
            .set({ revokedAt: at })
            .where(and(eq(oneTimeLink.purpose, purpose), isOfAccount, inForce(at)))
            .returning({ id: oneTimeLink.id }),
        },
      ])
    },

    async trouble(key) {
      const [row] = await db.select().from(signInTrouble).where(eq(signInTrouble.key, key))
      return row ? { failures: row.failures, lastAt: Instant.parse(row.lastAt) } : null
    },
    async addFailure(key, at) {
      await engine.write((tx) => [
        {
          run: tx
            .insert(signInTrouble)
            .values({ key, failures: 1, lastAt: at })
            .onConflictDoUpdate({
              target: signInTrouble.key,
              set: { failures: sql`${signInTrouble.failures} + 1`, lastAt: at },
            })
            .returning({ key: signInTrouble.key }),
        },
      ])
    },
    async takeBackFailure(key) {
      await engine.write((tx) => [
        {
          run: tx
            .update(signInTrouble)
            .set({ failures: sql`max(0, ${signInTrouble.failures} - 1)` })
            .where(eq(signInTrouble.key, key))
            .returning({ key: signInTrouble.key }),
        },
      ])
    },
    async clearTrouble(key) {
      await engine.write((tx) => [
        {
          run: tx
            .delete(signInTrouble)
            .where(eq(signInTrouble.key, key))
            .returning({ key: signInTrouble.key }),
        },
      ])
    },
  }
}
