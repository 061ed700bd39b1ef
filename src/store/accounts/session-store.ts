/** Who is signed in. */
import { and, eq, isNull, lt, sql } from 'drizzle-orm'
import { Instant } from '../../domain/instant.ts'
import type { Engine } from '../engine.ts'
import { accountRows } from './account-rows.ts'
import type { AccountSteps } from './account-steps.ts'
import type { AccountStore } from './account-store.ts'

export function sessionStore(
  engine: Engine,
  { useUp }: AccountSteps,
): Pick<AccountStore, 'addSession' | 'session' | 'touchSession' | 'endSession' | 'endSessions'> {
  const { db, tables } = engine
  const { account, accountDetails, session } = tables
  const { accountFrom } = accountRows(engine)
  // Asked with every request: built once, since building them takes longer than running them.
  const sessionQuery = db
    .select({ session, row: account, details: accountDetails })
    .from(session)
    .innerJoin(account, and(eq(account.id, session.accountId), isNull(account.removedAt)))
    .leftJoin(accountDetails, eq(accountDetails.accountId, account.id))
    .where(eq(session.hash, sql.placeholder('hash')))
    .prepare()

  return {
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
  }
}
