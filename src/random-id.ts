/** Ids for new things: the word for the kind, and 80 random bits that are easy to read out. */
import { randomBytes } from 'node:crypto'

/** Crockford's base 32: no i, l, o, u. */
const alphabet = '0123456789abcdefghjkmnpqrstvwxyz'

/** `booking` gives `booking_` and 16 characters. */
export function randomId(prefix: string): string {
  const characters = Array.from(randomBytes(16), (byte) => alphabet.charAt(byte % alphabet.length))
  return `${prefix}_${characters.join('')}`
}
