/** Accounts, and in which sites they are members. */
import { and, asc, eq, isNull } from 'drizzle-orm'
import { type Engine, once } from '../engine.ts'
import { accountRows } from './account-rows.ts'
import type { AccountSteps } from './account-steps.ts'
import type { AccountStore } from './account-store.ts'

export function peopleStore(
  engine: Engine,
  { audited, useUp, putMembership }: AccountSteps,
): Pick<
  AccountStore,
  | 'hasAccounts'
  | 'account'
  | 'accountByEmail'
  | 'passwordHash'
  | 'members'
  | 'addAccount'
  | 'changeDetails'
  | 'setPassword'
  | 'removeAccount'
  | 'setMembership'
  | 'endMembership'
> {
  const { db, tables } = engine
  const { account, accountDetails, membership, session } = tables
  const { accountFrom, withDetails, one } = accountRows(engine)

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
  }
}
