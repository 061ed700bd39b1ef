/**
 * Secrets that sign somebody in: 256 random bits behind a prefix that says what they are. Kept is their HMAC-SHA-256 under
 * a key that is not in the database, which is fast: what is random needs no slow hash.
 */
import { createHmac, randomBytes, timingSafeEqual } from 'node:crypto'

export const SECRET_KINDS = ['session', 'token', 'link'] as const
export type SecretKind = (typeof SECRET_KINDS)[number]

const SECRET_BYTES = 32
/** 32 bytes in base64url. */
const SECRET_SHAPE = /^turnwright_(session|token|link)_[A-Za-z0-9_-]{43}$/

export interface Secrets {
  fresh(kind: SecretKind): { readonly secret: string; readonly hash: string }
  /** null: it is no secret of that kind, whatever else it is. */
  hashOf(kind: SecretKind, secret: string): string | null
  /** What a page must send along with a session, so that no other page can use it. */
  csrfOf(secret: string): string
  isCsrfOf(secret: string, told: string): boolean
  /** Names something without saying it, such as an address that failed to sign in. */
  nameOf(text: string): string
}

/** @param key  32 bytes or more */
export function secretsUnder(key: Uint8Array): Secrets {
  const keyed = (what: string, text: string) => createHmac('sha256', key).update(`${what}:${text}`)
  const hash = (secret: string) => keyed('secret', secret).digest('hex')
  const csrfOf = (secret: string) => keyed('csrf', secret).digest('base64url')
  return {
    fresh: (kind) => {
      const secret = `turnwright_${kind}_${randomBytes(SECRET_BYTES).toString('base64url')}`
      return { secret, hash: hash(secret) }
    },
    hashOf: (kind, secret) => (SECRET_SHAPE.exec(secret)?.[1] === kind ? hash(secret) : null),
    csrfOf,
    isCsrfOf: (secret, told) => {
      const [wanted, given] = [Buffer.from(csrfOf(secret)), Buffer.from(told)]
      return wanted.length === given.length && timingSafeEqual(wanted, given)
    },
    nameOf: (text) => keyed('name', text).digest('hex'),
  }
}
