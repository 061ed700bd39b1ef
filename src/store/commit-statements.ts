/**
 * The statements that nearly every commit runs, built once and run with other values each time: writing out the same SQL
 * again and again cost more than running it. They are made from the connection the transaction runs on; with SQLite that
 * is always the same one.
 */
import { and, type DriverValueEncoder, eq, getTableColumns, type SQL, sql } from 'drizzle-orm'
import type { SQLiteTable } from 'drizzle-orm/sqlite-core'
import { chainedEntry } from './chained-entry.ts'
import type { Engine, Step } from './engine.ts'

export type Statement = (values: Readonly<Record<string, unknown>>) => Step['run'] & { all(): unknown[] }
export type CommitStatements = ReturnType<typeof commitStatements>

export function commitStatements(engine: Engine) {
  const { db, tables } = engine
  const { audit, booking, changeLog, judging, plan, sectionOccupancy, site, turn } = tables
  const planningVersion = sql`(select ${site.planningVersion} from ${site} where ${site.id} = ${sql.placeholder('siteId')})`
  const auditSequence = sql`(select max(${audit.sequence}) from ${audit} where ${audit.siteId} = ${sql.placeholder('siteId')})`
  const { sequence: _logSequence, ...logValues } = named(changeLog)
  const turnValues = named(turn)
  return {
    addBooking: runWith(db.insert(booking).values(named(booking)).returning({ id: booking.id }).prepare()),
    takeSection: runWith(
      db
        .insert(sectionOccupancy)
        .values(named(sectionOccupancy))
        .returning({ id: sectionOccupancy.sectionId })
        .prepare(),
    ),
    addTurn: runWith(db.insert(turn).values(turnValues).returning({ id: turn.id }).prepare()),
    changeTurn: runWith(
      db
        .update(turn)
        .set(turnValues)
        .where(and(eq(turn.id, sql.placeholder('id')), eq(turn.siteId, sql.placeholder('siteId'))))
        .returning({ id: turn.id })
        .prepare(),
    ),
    putPlan: runWith(
      db
        .insert(plan)
        .values(named(plan))
        .onConflictDoUpdate({
          target: plan.turnId,
          set: { hash: sql`excluded.hash`, document: sql`excluded.document` },
        })
        .returning({ id: plan.turnId })
        .prepare(),
    ),
    setJudging: runWith(
      db
        .insert(judging)
        .values(named(judging))
        .onConflictDoUpdate({
          target: judging.siteId,
          set: { judgedThroughAt: sql`excluded.judged_through_at` },
        })
        .returning({ id: judging.siteId })
        .prepare(),
    ),
    addAudit: runWith(
      db
        .insert(audit)
        .select(chainedEntry(engine, { ...named(audit), planningVersion }))
        .returning({ sequence: audit.sequence })
        .prepare(),
    ),
    addLogEntry: runWith(
      db
        .insert(changeLog)
        .values({ ...logValues, auditSequence })
        .returning({ sequence: changeLog.sequence })
        .prepare(),
    ),
  }
}

type Values<Table extends SQLiteTable> = Record<keyof Table['_']['columns'], SQL>

/** A value for every column, written as the column writes it, to be given by the column's own name at each run. */
function named<Table extends SQLiteTable>(table: Table): Values<Table> {
  const columns = Object.entries(getTableColumns(table))
  return Object.fromEntries(
    columns.map(([name, column]) => [name, sql`${sql.param(sql.placeholder(name), orNull(column))}`]),
  ) as Values<Table>
}

/**
 * Nothing stays nothing: a value that is given at the time of the run would go through the column's own encoding, which
 * makes the text `null` of it where the column holds JSON, and conditions that ask whether something is there would hold.
 */
const orNull = (column: DriverValueEncoder<unknown, unknown>): DriverValueEncoder<unknown, unknown> => ({
  mapToDriverValue: (value) => (value === null ? null : column.mapToDriverValue(value)),
})

interface Prepared {
  all(values: Record<string, unknown>): unknown[]
}

/** Awaitable like any other step; the engine for SQLite runs it at once, by `all`. */
const runWith =
  (prepared: Prepared): Statement =>
  (values) => {
    const all = () => prepared.all({ ...values })
    return {
      all,
      // biome-ignore lint/suspicious/noThenProperty: a step of a write is what can be awaited
      then: (fulfilled, rejected) => Promise.resolve().then(all).then(fulfilled, rejected),
    }
  }
