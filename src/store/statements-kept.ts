/** A connection that keeps the statements it has compiled: the same few are run again and again. */
import type Database from 'better-sqlite3'

/** Far more than the program has; lists of ids make a few more, by their length. */
const STATEMENTS_KEPT_MOST = 200

/**
 * For the query builder alone. It always reads rows as arrays, so that a kept statement is never found in another mode
 * than it was left in; whoever changes modes by hand takes the connection itself.
 */
export function withStatementsKept(raw: Database.Database): Database.Database {
  const kept = new Map<string, Database.Statement>()
  const prepare = (source: string): Database.Statement => {
    const known = kept.get(source)
    if (known) return known
    if (kept.size >= STATEMENTS_KEPT_MOST) kept.clear()
    const statement = raw.prepare(source)
    kept.set(source, statement)
    return statement
  }
  return new Proxy(raw, {
    get(target, key) {
      if (key === 'prepare') return prepare
      const value: unknown = Reflect.get(target, key, target)
      return typeof value === 'function' ? value.bind(target) : value
    },
  })
}
