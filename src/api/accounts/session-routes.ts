/** Signing in, and out. */
import { z } from 'zod'
import { linkFor, sendLink } from '../../accounts/one-time-links.ts'
import { passwordHashOf } from '../../accounts/passwords.ts'
import { beginSession, signIn } from '../../accounts/sign-in.ts'
import { EmailAddress } from '../../domain/accounts/account.ts'
import { Role } from '../../domain/accounts/role.ts'
import { ActorId, SiteId } from '../../domain/ids.ts'
import { actorOfAccount } from '../access/identify.ts'
import { jsonAnswer, send } from '../answer.ts'
import type { ApiContext } from '../context.ts'
import { Problem } from '../problems.ts'
import { problemResponses } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'
import { Password, refuseWeakPassword, Secret } from './account-bodies.ts'
import { giveCookie, linkGone, ownAccount, sessionAnswer, takeCookie, unlessGone } from './account-context.ts'

const SessionAnswer = z.object({
  actorId: ActorId,
  kind: z.enum(['account', 'token', 'visitor', 'nobody']),
  name: z.string().nullable(),
  roleEverywhere: Role.nullable().meta({ description: 'In every site; null: only in those listed' }),
  roles: z.array(z.object({ siteId: SiteId, role: Role })),
  siteIds: z.array(SiteId).nullable().meta({ description: 'null: every one' }),
  csrfToken: z
    .string()
    .nullable()
    .meta({ description: 'For the header X-CSRF-Token of whatever changes something; null: no cookie' }),
})

const SignInBody = z.union([
  z.strictObject({ email: EmailAddress, password: Password }),
  z.strictObject({ link: Secret }),
])
const EmailBody = z.strictObject({ email: EmailAddress })

export function sessionRoutes(api: Api, context: ApiContext): void {
  const { accounts, cookie } = context
  const { store, secrets } = accounts

  api.post(
    '/v1/session',
    {
      config: { rateLimit: context.limits.signIn },
      schema: {
        tags: ['accounts'],
        summary: 'Sign in with e-mail and password, or with a link that was sent',
        body: SignInBody,
        response: { 200: SessionAnswer, ...problemResponses },
      },
    },
    async (request, reply) => {
      const { body } = request
      const signedIn = 'link' in body ? await byLink(body.link) : await byPassword(body, request.ip)
      // A new session at every sign-in: whoever knew the old one knows nothing of it.
      if (request.sessionSecret !== null) await endSession(request.sessionSecret)
      const { account, secret } = signedIn
      giveCookie(reply, cookie, secret)
      const answer = sessionAnswer(accounts, actorOfAccount(account), secret, account)
      return send(reply, jsonAnswer(200, answer, 'utc'))
    },
  )

  async function byPassword(body: { email: string; password: string }, address: string) {
    const result = await signIn(accounts, body, address)
    switch (result.kind) {
      case 'signed-in':
        return result
      case 'wrong':
        throw new Problem('sign-in-refused', 'There is no account with this address and password.')
      case 'wait':
        throw tooSoon(result.seconds)
      default:
        return result satisfies never
    }
  }

  async function byLink(link: string) {
    const found = await linkFor(accounts, 'sign-in', link)
    const account = found?.link.accountId ? await store.account(found.link.accountId) : null
    if (!found || !account || account.removedAt !== null) throw linkGone()
    return { account, secret: await unlessGone(beginSession(accounts, account, found.hash)) }
  }

  async function endSession(secret: string): Promise<void> {
    const hash = secrets.hashOf('session', secret)
    if (hash !== null) await store.endSession(hash)
  }

  api.get(
    '/v1/session',
    {
      schema: {
        tags: ['accounts'],
        summary: 'Who is signed in, with which roles',
        response: { 200: SessionAnswer, ...problemResponses },
      },
    },
    async ({ actor, sessionSecret }, reply) => {
      const account = actor.kind === 'account' ? await store.account(actor.id) : null
      return send(reply, jsonAnswer(200, sessionAnswer(accounts, actor, sessionSecret, account), 'utc'))
    },
  )

  api.delete(
    '/v1/session',
    {
      schema: {
        tags: ['accounts'],
        summary: 'Sign out',
        response: { 204: z.undefined(), ...problemResponses },
      },
    },
    async (request, reply) => {
      if (request.sessionSecret !== null) await endSession(request.sessionSecret)
      return takeCookie(reply, cookie).code(204).send()
    },
  )

  api.delete(
    '/v1/sessions',
    {
      schema: {
        tags: ['accounts'],
        summary: 'Sign out everywhere',
        response: { 204: z.undefined(), ...problemResponses },
      },
    },
    async (request, reply) => {
      await store.endSessions((await ownAccount(accounts, request)).id)
      return takeCookie(reply, cookie).code(204).send()
    },
  )

  for (const [path, purpose, summary] of [
    ['/v1/sign-in-links', 'sign-in', 'Have a link sent that signs in once'],
    ['/v1/password-links', 'reset', 'Have a link sent that lets a new password be chosen once'],
  ] as const) {
    api.post(
      path,
      {
        config: { rateLimit: context.limits.signIn },
        schema: {
          tags: ['accounts'],
          summary: `${summary}. The answer is the same whether there is such an account or not`,
          body: EmailBody,
          response: { 202: z.undefined(), ...problemResponses },
        },
      },
      async (request, reply) => {
        // Not waited for: how long it takes would tell whether there is an account.
        sendLink(accounts, request.body.email, purpose).catch((error: unknown) =>
          request.log.error({ err: error }, 'a letter was not sent'),
        )
        return reply.code(202).send()
      },
    )
  }

  api.post(
    '/v1/passwords',
    {
      config: { rateLimit: context.limits.signIn },
      schema: {
        tags: ['accounts'],
        summary: 'Choose a new password with a link that was sent; every session ends',
        body: z.strictObject({ link: Secret, password: Password }),
        response: { 204: z.undefined(), ...problemResponses },
      },
    },
    async ({ body }, reply) => {
      const found = await linkFor(accounts, 'reset', body.link)
      const account = found?.link.accountId ? await store.account(found.link.accountId) : null
      if (!found || !account?.details) throw linkGone()
      refuseWeakPassword('/password', body.password, [account.details.name, account.details.email])
      const hash = await passwordHashOf(body.password)
      await unlessGone(store.setPassword(account.id, hash, context.clock(), found.hash))
      return reply.code(204).send()
    },
  )
}

const tooSoon = (seconds: number): Problem =>
  new Problem(
    'too-many-requests',
    `Too many attempts have failed. Wait ${seconds} s, or have a link sent.`,
    {},
    { 'retry-after': String(seconds) },
  )
