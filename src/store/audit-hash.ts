/**
 * What makes the audit a chain: each entry holds the hash of its own text, and that text names the hash of the entry
 * before it. SHA-256 (FIPS 180-4) is not keyed: whoever can write the file can also write a whole chain anew, which shows
 * only beside a hash that was noted elsewhere.
 */
import { createHash } from 'node:crypto'

/** An entry as its row holds it, but for its own hash. */
export interface AuditContent {
  readonly sequence: number
  readonly siteId: string
  /** Epoch milliseconds. */
  readonly at: number
  readonly actorId: string
  readonly action: string
  readonly reason: string | null
  readonly planningVersion: number
  /** The JSON as it is stored, byte for byte. */
  readonly effects: string
  /** null: it is the first entry of all. */
  readonly previousHash: string | null
}

/** By this name every database hashes an entry: a function of the columns of AuditContent, in their order. */
export const AUDIT_HASH_FUNCTION = 'audit_hash'

/** @returns 64 digits, 0-9 and a-f */
export const auditHash = (content: AuditContent): string =>
  createHash('sha256').update(auditText(content), 'utf8').digest('hex')

/**
 * Two lines. The first is a JSON array without spaces, its strings written as RFC 8785, 3.2.2.2 says, which is what
 * JSON.stringify does: it holds no line break, so that no two entries have the same text. The second is the effects.
 */
function auditText(content: AuditContent): string {
  const { sequence, siteId, at, actorId, action, reason, planningVersion, effects, previousHash } = content
  const line = JSON.stringify([sequence, siteId, at, actorId, action, reason, planningVersion, previousHash])
  return `${line}\n${effects}`
}
