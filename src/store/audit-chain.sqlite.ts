/** The chain of the audit as SQLite makes it: the function that hashes, and the links of entries from before there were any. */
import type Database from 'better-sqlite3'
import { AUDIT_HASH_FUNCTION, auditHash } from './audit-hash.ts'

/** For statements alone: nothing that a file brings with it, such as a view, may call it. */
export function teachAuditHash(raw: Database.Database): void {
  raw.function(
    AUDIT_HASH_FUNCTION,
    { deterministic: true, directOnly: true },
    (
      sequence: number,
      siteId: string,
      at: number,
      actorId: string,
      action: string,
      reason: string | null,
      planningVersion: number,
      effects: string,
      previousHash: string | null,
    ) => auditHash({ sequence, siteId, at, actorId, action, reason, planningVersion, effects, previousHash }),
  )
}

/**
 * Links entries that have no hash yet to those before them, oldest first: what is linked is always the beginning of the
 * audit, so that it can be gone on with after a stop. To be run in a transaction, without the guard of old entries.
 * @param afterSequence  where the last piece ended; 0: not known
 * @param most  entries at once
 * @returns where this piece ended; null: nothing is left
 */
export function linkEntries(raw: Database.Database, afterSequence: number, most: number): number | null {
  const waiting = raw
    .prepare<[number, number], number>(
      'SELECT sequence FROM audit WHERE sequence > ? AND hash IS NULL ORDER BY sequence LIMIT ?',
    )
    .pluck()
    .all(afterSequence, most)
  const [first] = waiting
  if (first === undefined) return null
  const hashBefore = raw
    .prepare<[number], string | null>(
      'SELECT hash FROM audit WHERE sequence < ? ORDER BY sequence DESC LIMIT 1',
    )
    .pluck()
  const link = raw
    .prepare<[{ sequence: number; previousHash: string | null }], string>(
      `UPDATE audit SET previous_hash = @previousHash, hash = ${AUDIT_HASH_FUNCTION}(
         sequence, site_id, at, actor_id, action, reason, planning_version, effects, @previousHash)
       WHERE sequence = @sequence RETURNING hash`,
    )
    .pluck()
  let previousHash = hashBefore.get(first) ?? null
  for (const sequence of waiting) previousHash = link.get({ sequence, previousHash }) ?? null
  return waiting.length < most ? null : (waiting.at(-1) ?? null)
}
