/** The row that a commit adds to the audit, linked to the one before it by the database itself. */
import { getTableColumns, type SQL, sql } from 'drizzle-orm'
import { AUDIT_HASH_FUNCTION, type AuditContent } from './audit-hash.ts'
import type { Engine } from './engine.ts'

type Given = Omit<AuditContent, 'sequence' | 'previousHash'>

/**
 * Number, link and hash come about where the row is inserted, so that no entry is read before it: two who write at once
 * cannot take the same one for the last. Each value is written once, for the effects may be long.
 * @returns a select of one row for an insert into the audit, its columns in the order of the table
 */
export function chainedEntry(
  { tables: { audit }, nextSequence }: Engine,
  { siteId, at, actorId, action, reason, planningVersion, effects }: Readonly<Record<keyof Given, SQL>>,
): SQL {
  const sequence = nextSequence(audit)
  const previousHash = sql`(select ${audit.hash} from ${audit} order by ${audit.sequence} desc limit 1)`
  // In the order in which they are hashed.
  const given = { siteId, at, actorId, action, reason, planningVersion, effects }
  const content: Record<keyof AuditContent, SQL> = { sequence, ...given, previousHash }
  const hashed = Object.keys(content).map((name) => sql.identifier(name))
  const hash = sql`${sql.raw(AUDIT_HASH_FUNCTION)}(${sql.join(hashed, comma)})`
  const columns = Object.keys(getTableColumns(audit)).map((name) =>
    name === 'hash' ? hash : sql.identifier(name),
  )
  const values = Object.entries(content).map(([name, value]) => sql`${value} as ${sql.identifier(name)}`)
  return sql`select ${sql.join(columns, comma)} from (select ${sql.join(values, comma)}) as entry`
}

const comma = sql.raw(', ')
