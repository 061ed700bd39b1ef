/** Links that count once: made, sent, and where they lead. The secret stands behind a #, which no server is ever told. */
import type { LinkPurpose, OneTimeLink } from '../domain/accounts/one-time-link.ts'
import { type Instant, instantPlusSeconds } from '../domain/instant.ts'
import type { AccountAudit } from '../store/accounts/account-store.ts'
import { Conflict } from '../store/store.ts'
import type { Accounts } from './accounts.ts'

/** Common practice, no source. */
export const LINK_SECONDS: Readonly<Record<LinkPurpose, number>> = {
  'set-up': 86_400,
  invitation: 7 * 86_400,
  'sign-in': 900,
  reset: 3_600,
}

const PAGES: Readonly<Record<LinkPurpose, string>> = {
  'set-up': 'set-up',
  invitation: 'invitation',
  'sign-in': 'sign-in',
  reset: 'new-password',
}

export interface LinkMade {
  readonly link: OneTimeLink
  readonly url: string
}

type LinkWishes = Pick<OneTimeLink, 'purpose'> &
  Partial<Pick<OneTimeLink, 'accountId' | 'siteId' | 'role' | 'personId' | 'createdBy'>> & {
    readonly expiresAt?: Instant
  }

export async function makeLink(
  { store, secrets, clock, newId, publicUrl }: Accounts,
  wishes: LinkWishes,
  auditOf: (link: OneTimeLink) => AccountAudit | null = () => null,
): Promise<LinkMade> {
  const { secret, hash } = secrets.fresh('link')
  const createdAt = clock()
  const link: OneTimeLink = {
    id: newId('onetime'),
    accountId: null,
    siteId: null,
    role: null,
    personId: null,
    createdBy: null,
    createdAt,
    expiresAt: instantPlusSeconds(createdAt, LINK_SECONDS[wishes.purpose]),
    usedAt: null,
    revokedAt: null,
    ...wishes,
  }
  await store.addLink(link, hash, auditOf(link))
  return { link, url: `${publicUrl()}/${PAGES[link.purpose]}#${secret}` }
}

/** null: there is no such link in force */
export async function linkFor(
  { store, secrets, clock }: Accounts,
  purpose: LinkPurpose,
  secret: string,
): Promise<{ readonly link: OneTimeLink; readonly hash: string } | null> {
  const hash = secrets.hashOf('link', secret)
  const link = hash === null ? null : await store.link(hash, clock())
  return hash !== null && link?.purpose === purpose ? { link, hash } : null
}

const LETTER_EVERY_SECONDS = 60

/**
 * Sends somebody a link to sign in or to a new password, if there is such an account, and not more than one a minute.
 * What it does is not told: whoever asks learns nothing of who has an account.
 */
export async function sendLink(
  accounts: Accounts,
  email: string,
  purpose: 'sign-in' | 'reset',
): Promise<void> {
  const { store, secrets, clock, mail } = accounts
  const now = clock()
  const key = `letter:${secrets.nameOf(`${purpose} ${email}`)}`
  const last = await store.trouble(key)
  if (last && instantPlusSeconds(last.lastAt, LETTER_EVERY_SECONDS) > now) return
  try {
    await store.putFailures([{ key, seen: last, failures: 1 }], now)
  } catch (error) {
    // Asked for twice at once: the other one sends it.
    if (error instanceof Conflict) return
    throw error
  }
  const account = await store.accountByEmail(email)
  if (!account) return
  await store.revokeLinks(purpose, account.id, now)
  const { url } = await makeLink(accounts, { purpose, accountId: account.id })
  await mail.send({ to: email, ...LETTERS[purpose](url, account.details?.name ?? '') })
}

const LETTERS = {
  'sign-in': (url: string, name: string) => ({
    subject: 'Your link to sign in',
    text: `${name},\n\nthis link signs you in once, within a quarter of an hour:\n\n${url}\n\nIf you did not ask for it, leave it: nothing happens without it.\n`,
  }),
  reset: (url: string, name: string) => ({
    subject: 'Your link to a new password',
    text: `${name},\n\nthis link lets you choose a new password once, within an hour:\n\n${url}\n\nIf you did not ask for it, leave it: your password stays as it is.\n`,
  }),
} as const

/** The one who makes the first account, or null where there is one already. */
export async function setUpLink(accounts: Accounts): Promise<string | null> {
  const { store, clock } = accounts
  if (await store.hasAccounts()) return null
  await store.revokeLinks('set-up', null, clock())
  return (await makeLink(accounts, { purpose: 'set-up' })).url
}
