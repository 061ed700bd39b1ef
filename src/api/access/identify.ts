/** Who a request comes from: by token, by the cookie of a session, or as a visitor of the demo. */
import type { FastifyRequest } from 'fastify'
import type { Accounts } from '../../accounts/accounts.ts'
import { accountOfSession, tokenInForce } from '../../accounts/who-signed-in.ts'
import type { AccessToken } from '../../domain/accounts/access-token.ts'
import type { Account } from '../../domain/accounts/account.ts'
import { type Actor, NOBODY, VISITOR } from '../actor.ts'
import { Problem } from '../problems.ts'
import { isForAnyone } from './guard.ts'

/** Methods that change nothing need no proof that our own page sent them. */
const SAFE_METHODS: ReadonlySet<string> = new Set(['GET', 'HEAD', 'OPTIONS'])

export interface Identified {
  readonly actor: Actor
  /** Of the session; null: it is none. */
  readonly sessionSecret: string | null
}

export interface IdentifyOptions {
  readonly accounts: Accounts
  readonly cookieName: string
  /** Whoever has not signed in is the visitor of the demo. */
  readonly hasVisitor: boolean
}

/** @throws Problem bad-token, csrf-missing */
export async function identified(
  request: FastifyRequest,
  { accounts, cookieName, hasVisitor }: IdentifyOptions,
): Promise<Identified> {
  const { authorization } = request.headers
  if (authorization !== undefined) {
    const [, secret] = /^Bearer ([\x21-\x7e]{1,200})$/i.exec(authorization) ?? []
    const token = secret === undefined ? null : await tokenInForce(accounts, secret)
    if (!token) throw badToken()
    return { actor: actorOfToken(token), sessionSecret: null }
  }
  const secret = request.cookies[cookieName]
  const account = secret === undefined ? null : await accountOfSession(accounts, secret)
  if (secret === undefined || account === null)
    return { actor: hasVisitor ? VISITOR : NOBODY, sessionSecret: null }
  if (!SAFE_METHODS.has(request.method) && !isForAnyone(request)) refuseWithoutCsrf(request, accounts, secret)
  return { actor: actorOfAccount(account), sessionSecret: secret }
}

function refuseWithoutCsrf({ headers }: FastifyRequest, { secrets }: Accounts, secret: string): void {
  const told = headers['x-csrf-token']
  if (typeof told === 'string' && secrets.isCsrfOf(secret, told)) return
  throw new Problem(
    'csrf-missing',
    'Send the header X-CSRF-Token with the csrfToken that GET /v1/session gives.',
  )
}

const actorOfToken = ({ id, siteId, role }: AccessToken): Actor => ({
  id,
  kind: 'token',
  roleEverywhere: siteId === null ? role : null,
  roles: new Map(siteId === null ? [] : [[siteId, role]]),
  people: new Map(),
})

export const actorOfAccount = ({ id, keepsAll, memberships }: Account): Actor => ({
  id,
  kind: 'account',
  roleEverywhere: keepsAll ? 'administrator' : null,
  // Whoever keeps all is administrator everywhere, whatever else they are somewhere.
  roles: new Map(keepsAll ? [] : memberships.map(({ siteId, role }) => [siteId, role])),
  people: new Map(memberships.flatMap(({ siteId, personId }) => (personId ? [[siteId, personId]] : []))),
})

const badToken = (): Problem =>
  new Problem(
    'bad-token',
    'The token is unknown, revoked or over. An administrator of the site makes a new one.',
    {},
    { 'www-authenticate': 'Bearer error="invalid_token"' },
  )
