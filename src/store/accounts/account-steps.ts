/** Steps that several writes of accounts share. */
import { and, eq, gt, isNull } from 'drizzle-orm'
import type { Membership } from '../../domain/accounts/account.ts'
import type { ActorId } from '../../domain/ids.ts'
import type { Instant } from '../../domain/instant.ts'
import type { CommitStatements } from '../commit-statements.ts'
import { type Db, type Engine, once, type Step } from '../engine.ts'
import type { AccountAudit, SecretHash } from './account-store.ts'

export const LINK_GONE = 'The link is used, revoked or over'

export type AccountSteps = ReturnType<typeof accountSteps>

export function accountSteps({ tables }: Engine, { addAudit }: CommitStatements) {
  const { membership, oneTimeLink } = tables
  const audited = (audit: AccountAudit): Step => ({
    run: addAudit({ reason: null, ...audit }),
    rows: once('The audit took no entry'),
  })
  const inForce = (at: Instant) =>
    and(isNull(oneTimeLink.usedAt), isNull(oneTimeLink.revokedAt), gt(oneTimeLink.expiresAt, at))
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

  return { audited, inForce, useUp, putMembership }
}
