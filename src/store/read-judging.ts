/** How far turns have been looked at after a change of the hall, and those that are to be looked at or gone over. */
import { and, asc, eq, gt, gte, lt, sql } from 'drizzle-orm'
import { z } from 'zod'
import { BookingId, TurnId } from '../domain/ids.ts'
import { Instant } from '../domain/instant.ts'
import type { Engine } from './engine.ts'
import type { Store, TurnDue } from './store.ts'

const StoredTurnDue: z.ZodType<TurnDue> = z.object({ id: TurnId, dueAt: Instant, bookingId: BookingId })

type JudgingReads = Pick<Store, 'judgedThroughAt' | 'turnsDueFrom' | 'countTurnsDueFrom' | 'turnsToPolish'>

export function judgingReader(engine: Engine): JudgingReads {
  const { countDueFrom, dueFrom, judgedThrough, toPolish } = judgingQueries(engine)
  return {
    async judgedThroughAt(siteId) {
      const [row] = await judgedThrough.execute({ siteId })
      return Instant.nullable().parse(row?.judgedThroughAt ?? null)
    },
    async turnsDueFrom(siteId, dueFromAt, most) {
      const rows = await dueFrom.execute({ siteId, dueFromAt, most })
      return rows.map((row) => StoredTurnDue.parse(row))
    },
    async countTurnsDueFrom(siteId, dueFromAt) {
      const [row] = await countDueFrom.execute({ siteId, dueFromAt })
      return row?.count ?? 0
    },
    async turnsToPolish(siteId, fromAt, toAt, most) {
      const rows = await toPolish.execute({ siteId, fromAt, toAt, most })
      return rows.map((row) => StoredTurnDue.parse(row))
    },
  }
}

/** Each finds its rows by an index whose condition is met literally, and walks no turn of the past. */
export function judgingQueries(engine: Engine) {
  const { db, tables } = engine
  const { turn } = tables
  const dueColumns = { id: turn.id, dueAt: turn.dueAt, bookingId: turn.bookingId }
  const isOfSite = eq(turn.siteId, sql.placeholder('siteId'))
  const isDueFrom = and(
    isOfSite,
    sql`${turn.status} <> 'dropped'`,
    gte(turn.dueAt, sql.placeholder('dueFromAt')),
  )
  return {
    judgedThrough: judgedThroughQuery(engine),
    dueFrom: db
      .select(dueColumns)
      .from(turn)
      .where(isDueFrom)
      .orderBy(asc(turn.dueAt), asc(turn.id))
      .limit(sql.placeholder('most'))
      .prepare(),
    countDueFrom: db.select({ count: sql<number>`count(*)` }).from(turn).where(isDueFrom).prepare(),
    toPolish: db
      .select(dueColumns)
      .from(turn)
      .where(
        and(
          isOfSite,
          sql`${turn.status} = 'ready' and ${turn.polishedAt} is null`,
          gte(turn.dueAt, sql.placeholder('fromAt')),
          lt(turn.dueAt, sql.placeholder('toAt')),
          gt(turn.planStartsAt, sql.placeholder('fromAt')),
        ),
      )
      .orderBy(asc(turn.dueAt), asc(turn.id))
      .limit(sql.placeholder('most'))
      .prepare(),
  }
}

export function judgedThroughQuery({ db, tables: { judging } }: Engine) {
  return db
    .select()
    .from(judging)
    .where(eq(judging.siteId, sql.placeholder('siteId')))
    .prepare()
}
