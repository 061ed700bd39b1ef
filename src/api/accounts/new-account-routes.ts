/** Accounts come about by a link only: the first by the one that is printed at start, all others by invitation. */
import { z } from 'zod'
import { linkFor } from '../../accounts/one-time-links.ts'
import { passwordHashOf } from '../../accounts/passwords.ts'
import { beginSession } from '../../accounts/sign-in.ts'
import { Membership } from '../../domain/accounts/account.ts'
import type { OneTimeLink } from '../../domain/accounts/one-time-link.ts'
import { ActorId } from '../../domain/ids.ts'
import type { AccountAudit } from '../../store/accounts/account-store.ts'
import { actorOfAccount } from '../access/identify.ts'
import { jsonAnswer, send } from '../answer.ts'
import type { ApiContext } from '../context.ts'
import { bodyFault, invalidInput } from '../problems.ts'
import { problemResponses } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'
import { NewAccountBody, refuseWeakPassword, Secret } from './account-bodies.ts'
import { giveCookie, linkGone, ownAccount, sessionAnswer, unlessGone } from './account-context.ts'

export function newAccountRoutes(api: Api, context: ApiContext): void {
  const { accounts, cookie } = context
  const { store } = accounts

  for (const [path, purpose, summary] of [
    ['/v1/first-account', 'set-up', 'Make the first account with the link that is printed at start'],
    ['/v1/accounts', 'invitation', 'Make an account with an invitation'],
  ] as const) {
    api.post(
      path,
      {
        config: { rateLimit: context.limits.signIn },
        schema: {
          tags: ['accounts'],
          summary: `${summary}, and sign in`,
          body: NewAccountBody,
          response: { 201: z.object({ actorId: ActorId }).loose(), ...problemResponses },
        },
      },
      async ({ body }, reply) => {
        const found = await linkFor(accounts, purpose, body.link)
        if (!found) throw linkGone()
        refuseWeakPassword('/password', body.password, [body.name, body.email])
        if (await store.accountByEmail(body.email))
          throw invalidInput([
            bodyFault('/email', 'has an account already: sign in, and open the link again'),
          ])
        const id = ActorId.parse(context.newId('actor'))
        const membership = membershipOf(found.link)
        const at = context.clock()
        await unlessGone(
          store.addAccount(
            {
              id,
              details: { name: body.name, email: body.email },
              passwordHash: await passwordHashOf(body.password),
              keepsAll: purpose === 'set-up',
              membership,
            },
            at,
            found.hash,
            membership && joined(found.link, id, membership, at),
          ),
        )
        const account = await store.account(id)
        if (!account) throw new Error('the account that was just made is not there')
        const secret = await beginSession(accounts, account, null)
        giveCookie(reply, cookie, secret)
        const answer = sessionAnswer(accounts, actorOfAccount(account), secret, account)
        return send(reply, jsonAnswer(201, answer, 'utc'))
      },
    )
  }

  api.post(
    '/v1/memberships',
    {
      schema: {
        tags: ['accounts'],
        summary: 'Take an invitation with the account that is signed in',
        body: z.strictObject({ link: Secret }),
        response: { 201: Membership, ...problemResponses },
      },
    },
    async (request, reply) => {
      const account = await ownAccount(accounts, request)
      const found = await linkFor(accounts, 'invitation', request.body.link)
      const membership = found && membershipOf(found.link)
      if (!found || !membership) throw linkGone()
      const audit = joined(found.link, account.id, membership, context.clock())
      await unlessGone(store.setMembership(account.id, membership, audit, found.hash))
      return send(reply, jsonAnswer(201, membership, 'utc'))
    },
  )
}

const membershipOf = ({ siteId, role, personId }: OneTimeLink): Membership | null =>
  siteId && role ? { siteId, role, personId } : null

const joined = (
  { id: linkId }: OneTimeLink,
  accountId: ActorId,
  membership: Membership,
  at: AccountAudit['at'],
): AccountAudit => ({
  siteId: membership.siteId,
  at,
  actorId: accountId,
  action: 'join',
  effects: [{ table: 'membership', id: accountId, before: null, after: { ...membership, linkId } }],
})
