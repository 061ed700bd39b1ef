/** Attempts to sign in that failed. */
import { and, eq, sql } from 'drizzle-orm'
import { Instant } from '../../domain/instant.ts'
import { type Engine, once } from '../engine.ts'
import type { AccountStore, Trouble } from './account-store.ts'

export function troubleStore(
  engine: Engine,
): Pick<AccountStore, 'trouble' | 'putFailures' | 'takeBackFailure' | 'clearTrouble'> {
  const { db, tables } = engine
  const { signInTrouble } = tables
  const isAsSeen = (key: string, { failures, lastAt }: Trouble) =>
    and(eq(signInTrouble.key, key), eq(signInTrouble.failures, failures), eq(signInTrouble.lastAt, lastAt))

  return {
    async trouble(key) {
      const [row] = await db.select().from(signInTrouble).where(eq(signInTrouble.key, key))
      return row ? { failures: row.failures, lastAt: Instant.parse(row.lastAt) } : null
    },
    async putFailures(counts, at) {
      await engine.write((tx) =>
        counts.map(({ key, seen, failures }) => {
          const values = { failures, lastAt: at }
          const run =
            seen === null
              ? tx
                  .insert(signInTrouble)
                  .values({ key, ...values })
                  .onConflictDoNothing()
                  .returning({ key: signInTrouble.key })
              : tx
                  .update(signInTrouble)
                  .set(values)
                  .where(isAsSeen(key, seen))
                  .returning({ key: signInTrouble.key })
          return {
            run,
            rows: once('Another attempt was counted meanwhile'),
          }
        }),
      )
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
