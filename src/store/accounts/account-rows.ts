/** Accounts as they stand in the database, with their details and memberships. */
import { asc, eq, sql } from 'drizzle-orm'
import { Account, Membership } from '../../domain/accounts/account.ts'
import type { ActorId } from '../../domain/ids.ts'
import type { Engine } from '../engine.ts'

export function accountRows({ db, tables }: Engine) {
  const { account, accountDetails, membership } = tables
  // Asked with every request: built once, since building them takes longer than running them.
  const membershipsQuery = db
    .select()
    .from(membership)
    .where(eq(membership.accountId, sql.placeholder('id')))
    .orderBy(asc(membership.siteId))
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

  return { accountFrom, withDetails, one }
}
