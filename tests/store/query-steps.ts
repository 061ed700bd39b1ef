/** How SQLite means to find the rows of prepared queries, table by table: what is walked shows as SCAN. */
import { z } from 'zod'
import { sqliteEngine } from '../../src/store/engine.sqlite.ts'
import type { Engine } from '../../src/store/engine.ts'
import { openSqliteDatabase } from '../../src/store/open-sqlite-database.ts'

interface Query {
  getQuery(): { readonly sql: string }
}

/** @param queriesOf  makes the queries; they are planned over tables without rows, so that no statistics speak */
export function querySteps(queriesOf: (engine: Engine) => Readonly<Record<string, Query>>): string[] {
  const engine = sqliteEngine({ file: ':memory:' })
  const raw = openSqliteDatabase({ file: ':memory:' })
  const steps = Object.values(queriesOf(engine)).flatMap((query) => {
    const { sql } = query.getQuery()
    const values = Array.from({ length: sql.split('?').length - 1 }, () => 1)
    const rows = raw.prepare(`EXPLAIN QUERY PLAN ${sql}`).all(...values)
    return z.array(z.object({ detail: z.string() })).parse(rows)
  })
  raw.close()
  engine.close()
  return steps.map(({ detail }) => detail)
}
