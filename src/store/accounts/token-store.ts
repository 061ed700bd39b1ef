/** Tokens of programs. */
import { and, asc, eq, isNull, sql } from 'drizzle-orm'
import { AccessToken } from '../../domain/accounts/access-token.ts'
import { type Engine, once } from '../engine.ts'
import type { AccountSteps } from './account-steps.ts'
import type { AccountStore } from './account-store.ts'

export function tokenStore(
  engine: Engine,
  { audited }: AccountSteps,
): Pick<AccountStore, 'addToken' | 'token' | 'tokens' | 'touchToken' | 'revokeToken'> {
  const { db, tables } = engine
  const { accessToken } = tables
  // Asked with every request: built once, since building them takes longer than running them.
  const tokenQuery = db
    .select()
    .from(accessToken)
    .where(eq(accessToken.hash, sql.placeholder('hash')))
    .prepare()

  return {
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
  }
}
