/**
 * Passwords: argon2id with the parameters of the library, which are the first choice of the OWASP Password Storage Cheat
 * Sheet (19 MiB, 2 passes, from memory). Length counts, not the kinds of characters; common ones are refused.
 * @source OWASP ASVS 5.0, 6.2 password security (from memory): 12 characters or more where there is no second factor, up to
 *         64 at least, any characters, checked against common passwords
 */
import { hash, verify } from '@node-rs/argon2'
import { dictionary } from '@zxcvbn-ts/language-common'

export const PASSWORD_CHARACTERS_LEAST = 12
/** Longer ones are refused and not cut: hashing them would only cost time. */
export const PASSWORD_CHARACTERS_MOST = 200

const common: ReadonlySet<string> = new Set(
  Object.entries(dictionary).flatMap(([name, words]) => (name.startsWith('passwords') ? words : [])),
)

/**
 * What is wrong with a password, or null.
 * @param own  words that whoever attacks knows: name and e-mail address
 */
export function passwordFault(password: string, own: readonly string[]): string | null {
  const length = [...password].length
  if (length < PASSWORD_CHARACTERS_LEAST)
    return `has ${length} characters; take ${PASSWORD_CHARACTERS_LEAST} or more, a few words for instance`
  if (length > PASSWORD_CHARACTERS_MOST)
    return `has ${length} characters; take ${PASSWORD_CHARACTERS_MOST} at most`
  const plain = password.normalize('NFKC').toLowerCase().trim()
  if (isCommon(plain)) return 'is one of those that many people have; take another'
  if (new Set(plain).size < 5) return 'repeats a few characters; take another'
  const parts = own.flatMap((text) => [text, ...text.split(/[@\s.]+/)]).map((text) => text.toLowerCase())
  const rest = parts
    .filter((part) => part.length > 2)
    .sort((a, b) => b.length - a.length)
    .reduce((text, part) => text.replaceAll(part, ''), plain)
  return rest.length < PASSWORD_CHARACTERS_LEAST / 2
    ? 'is little more than your name or e-mail address; take another'
    : null
}

/** Common ones are mostly short: a common one with figures or signs around it, or twice, is no better. */
function isCommon(plain: string): boolean {
  const core = plain.replace(/^[^\p{L}]+|[^\p{L}]+$/gu, '')
  const half = plain.slice(0, plain.length / 2)
  return [plain, core, plain === half + half ? half : plain].some((text) => common.has(text))
}

/** One and the same writing of letters with marks, whichever keyboard they come from. */
const written = (password: string): string => password.normalize('NFKC')

export const passwordHashOf = (password: string): Promise<string> => hash(written(password))

/** Of no password: looked at where there is no account, so that both take the same time. */
let nobody: Promise<string> | null = null

/** @param stored  null: there is no such account, or it has no password; that takes as long, and is false */
export async function isPasswordOf(stored: string | null, password: string): Promise<boolean> {
  nobody ??= hash('nobody has this one')
  const isIt = await verify(stored ?? (await nobody), written(password))
  return stored !== null && isIt
}
