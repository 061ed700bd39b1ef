/** One's own account: everything that is kept of it, changed and removed. */
import { z } from 'zod'
import { isPasswordOf, passwordHashOf } from '../../accounts/passwords.ts'
import { beginSession } from '../../accounts/sign-in.ts'
import { Account, EmailAddress } from '../../domain/accounts/account.ts'
import { Name } from '../../domain/units.ts'
import { jsonAnswer, send } from '../answer.ts'
import type { ApiContext } from '../context.ts'
import { bodyFault, invalidInput, Problem } from '../problems.ts'
import { problemResponses } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'
import { Password, refuseWeakPassword } from './account-bodies.ts'
import { giveCookie, ownAccount, takeCookie } from './account-context.ts'

const AccountPatch = z.strictObject({
  name: Name.optional(),
  email: EmailAddress.optional(),
  password: Password.optional().meta({ description: 'A new one: every other session ends' }),
  currentPassword: Password.optional().meta({ description: 'Needed for another address or password' }),
})

export function ownAccountRoutes(api: Api, context: ApiContext): void {
  const { accounts, cookie } = context
  const { store } = accounts

  api.get(
    '/v1/account',
    {
      schema: {
        tags: ['accounts'],
        summary: 'All that is kept of the account that is signed in',
        response: { 200: Account, ...problemResponses },
      },
    },
    async (request, reply) => send(reply, jsonAnswer(200, await ownAccount(accounts, request), 'utc')),
  )

  api.patch(
    '/v1/account',
    {
      config: { rateLimit: context.limits.signIn },
      schema: {
        tags: ['accounts'],
        summary: 'Change name, address or password',
        body: AccountPatch,
        response: { 200: Account, ...problemResponses },
      },
    },
    async (request, reply) => {
      const account = await ownAccount(accounts, request)
      const { body } = request
      const details = { name: '', email: '', ...account.details }
      const isForOwnerOnly = body.password !== undefined || (body.email ?? details.email) !== details.email
      if (isForOwnerOnly) {
        const stored = await store.passwordHash(account.id)
        if (stored !== null && !(await isPasswordOf(stored, body.currentPassword ?? '')))
          throw invalidInput([bodyFault('/currentPassword', 'must be the password as it is now')])
      }
      const after = { name: body.name ?? details.name, email: body.email ?? details.email }
      if (body.password !== undefined)
        refuseWeakPassword('/password', body.password, [after.name, after.email])
      const other = await store.accountByEmail(after.email)
      if (other && other.id !== account.id)
        throw invalidInput([bodyFault('/email', 'belongs to another account')])
      await store.changeDetails(account.id, after)
      if (body.password !== undefined) {
        await store.setPassword(account.id, await passwordHashOf(body.password), context.clock(), null)
        giveCookie(reply, cookie, await beginSession(accounts, account, null))
      }
      return send(reply, jsonAnswer(200, await store.account(account.id), 'utc'))
    },
  )

  api.delete(
    '/v1/account',
    {
      schema: {
        tags: ['accounts'],
        summary: 'Remove the own account: name and address are erased, the id stays in the audit',
        response: { 204: z.undefined(), ...problemResponses },
      },
    },
    async (request, reply) => {
      const account = await ownAccount(accounts, request)
      if (account.keepsAll)
        throw new Problem(
          'still-in-use',
          'This account keeps the whole installation: nobody could found a site or invite without it.',
          { usedBy: [] },
        )
      const at = context.clock()
      await store.removeAccount(
        account.id,
        at,
        account.memberships.map((membership) => ({
          siteId: membership.siteId,
          at,
          actorId: account.id,
          action: 'leave',
          effects: [{ table: 'membership', id: account.id, before: membership, after: null }],
        })),
      )
      return takeCookie(reply, cookie).code(204).send()
    },
  )
}
