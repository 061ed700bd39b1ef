/** The words tables are written in, as SQLite says them. A kit for another database has the same names. */
import {
  check,
  foreignKey,
  index,
  integer,
  primaryKey,
  sqliteTable,
  text,
  unique,
  uniqueIndex,
} from 'drizzle-orm/sqlite-core'

export const kit = {
  table: sqliteTable,
  index,
  uniqueIndex,
  /** A constraint that foreign keys may point to. */
  unique,
  check,
  foreignKey,
  primaryKey,
  str: () => text(),
  int: () => integer(),
  /** Epoch milliseconds. */
  instant: () => integer(),
  bool: () => integer({ mode: 'boolean' }),
  /** What comes out is parsed through its schema, so nothing is promised here. */
  json: () => text({ mode: 'json' }).$type<object>(),
  /** Counts up with each row and never gives a number twice. */
  sequence: () => integer().primaryKey({ autoIncrement: true }),
}
export type Kit = typeof kit
