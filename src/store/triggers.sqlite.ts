/**
 * What must never be true, whatever the code does. Made after every migration and not in one: SQLite drops a table's
 * triggers when a migration rebuilds the table.
 */
import { BOOKING_LONGEST_MILLISECONDS } from './tables.ts'

/** The message a refused overlap carries. */
export const SECTION_OVERLAP = 'section_overlap'

// Bounded by the largest length, so that the search does not walk the section's whole past. Spans are half open.
const refuseOverlap = `
  SELECT RAISE(ABORT, '${SECTION_OVERLAP}') WHERE EXISTS (
    SELECT 1 FROM section_occupancy o
    WHERE o.section_id = NEW.section_id AND o.blocking AND o.booking_id <> NEW.booking_id
      AND o.from_at > NEW.from_at - ${BOOKING_LONGEST_MILLISECONDS} AND o.from_at < NEW.to_at AND o.to_at > NEW.from_at);`

/** What keeps lines of the audit as they are. */
export const AUDIT_KEEPS_VALUES = 'audit_keeps_values'

const appendOnly = (table: string) => [
  [
    `${table}_keeps_rows`,
    `BEFORE DELETE ON ${table} BEGIN SELECT RAISE(ABORT, '${table}_is_append_only'); END`,
  ],
  [
    `${table}_keeps_values`,
    `BEFORE UPDATE ON ${table} BEGIN SELECT RAISE(ABORT, '${table}_is_append_only'); END`,
  ],
]

const triggers = [
  [
    'section_overlap_insert',
    `BEFORE INSERT ON section_occupancy WHEN NEW.blocking BEGIN ${refuseOverlap} END`,
  ],
  [
    'section_overlap_update',
    `BEFORE UPDATE OF booking_id, section_id, from_at, to_at, blocking ON section_occupancy
     WHEN NEW.blocking BEGIN ${refuseOverlap} END`,
  ],
  [
    'layout_keeps_room',
    `BEFORE UPDATE OF room_id ON layout WHEN NEW.room_id <> OLD.room_id
     BEGIN SELECT RAISE(ABORT, 'layout_keeps_room'); END`,
  ],
  ...appendOnly('audit'),
  [
    // An earlier version of the program that is still at work would leave entries out of the chain.
    'audit_is_chained',
    `BEFORE INSERT ON audit
     WHEN NEW.hash IS NULL OR NEW.previous_hash IS NOT (SELECT hash FROM audit ORDER BY sequence DESC LIMIT 1)
     BEGIN SELECT RAISE(ABORT, 'audit_is_chained'); END`,
  ],
  ...appendOnly('change_log'),
]

/** Statements that replace whatever was there; to be run in one transaction. */
export const triggerStatements: readonly string[] = triggers.flatMap(([name, body]) => [
  `DROP TRIGGER IF EXISTS ${name}`,
  `CREATE TRIGGER ${name} ${body}`,
])
