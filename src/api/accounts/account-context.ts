/** What routes about accounts work with, and the cookie of a session. */
import type { FastifyReply, FastifyRequest } from 'fastify'
import type { Accounts } from '../../accounts/accounts.ts'
import type { Account } from '../../domain/accounts/account.ts'
import { Conflict } from '../../store/store.ts'
import { type Actor, siteIdsOf } from '../actor.ts'
import { Problem } from '../problems.ts'

export interface SessionCookie {
  readonly name: string
  readonly isSecure: boolean
}

/** A browser takes one with this name only over TLS, from this host, for all of its paths. */
export const sessionCookie = (isSecure: boolean): SessionCookie => ({
  name: isSecure ? '__Host-turnwright' : 'turnwright',
  isSecure,
})

const cookieOptions = ({ isSecure }: SessionCookie) =>
  ({ path: '/', httpOnly: true, secure: isSecure, sameSite: 'lax' }) as const

export const giveCookie = (reply: FastifyReply, cookie: SessionCookie, secret: string): FastifyReply =>
  reply.setCookie(cookie.name, secret, cookieOptions(cookie))

export const takeCookie = (reply: FastifyReply, cookie: SessionCookie): FastifyReply =>
  reply.clearCookie(cookie.name, cookieOptions(cookie))

/** What a page needs to know of who is signed in. */
export const sessionAnswer = (
  accounts: Accounts,
  actor: Actor,
  secret: string | null,
  account: Account | null,
) => ({
  actorId: actor.id,
  kind: actor.kind,
  name: account?.details?.name ?? null,
  roleEverywhere: actor.roleEverywhere,
  roles: [...actor.roles].map(([siteId, role]) => ({ siteId, role })),
  siteIds: siteIdsOf(actor),
  csrfToken: secret === null ? null : accounts.secrets.csrfOf(secret),
})

/** @throws Problem account-needed: tokens and visitors have none */
export async function ownAccount({ store }: Accounts, { actor }: FastifyRequest): Promise<Account> {
  const account = actor.kind === 'account' ? await store.account(actor.id) : null
  if (!account) throw new Problem('account-needed', 'Sign in with an account of your own for that.')
  return account
}

export const linkGone = (): Problem =>
  new Problem('link-gone', 'The link is used, revoked or over. Ask for a new one.')

/** Somebody else was faster with the same link. */
export async function unlessGone<Done>(work: Promise<Done>): Promise<Done> {
  try {
    return await work
  } catch (error) {
    if (error instanceof Conflict) throw linkGone()
    throw error
  }
}
