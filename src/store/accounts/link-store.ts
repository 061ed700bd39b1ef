/** Links that count once. */
import { and, asc, eq, isNull } from 'drizzle-orm'
import { OneTimeLink } from '../../domain/accounts/one-time-link.ts'
import { type Engine, once } from '../engine.ts'
import { type AccountSteps, LINK_GONE } from './account-steps.ts'
import type { AccountStore } from './account-store.ts'

export function linkStore(
  engine: Engine,
  { audited, inForce }: AccountSteps,
): Pick<AccountStore, 'addLink' | 'link' | 'invitations' | 'revokeInvitation' | 'revokeLinks'> {
  const { db, tables } = engine
  const { oneTimeLink } = tables

  return {
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
  }
}
