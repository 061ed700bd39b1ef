/** What programs sign in with: made by an administrator of the site, shown once. */
import { z } from 'zod'
import { AccessToken } from '../../domain/accounts/access-token.ts'
import { RoleGiven } from '../../domain/accounts/role.ts'
import { ActorId } from '../../domain/ids.ts'
import { instantPlusSeconds } from '../../domain/instant.ts'
import { Name } from '../../domain/units.ts'
import { jsonAnswer, send } from '../answer.ts'
import { type ApiContext, siteFor } from '../context.ts'
import { unknownResource } from '../problems.ts'
import { problemResponses, SiteParams } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'

const DAY_SECONDS = 86_400

const TokenBody = z.strictObject({
  name: Name.meta({ description: 'What it is for', examples: ['sign at the door'] }),
  role: RoleGiven,
  days: z.int().min(1).max(730).nullable().default(365).meta({ description: 'null: until it is revoked' }),
})

export function tokenRoutes(api: Api, context: ApiContext): void {
  const { store, secrets } = context.accounts

  api.get(
    '/v1/sites/:site/tokens',
    {
      schema: {
        tags: ['accounts'],
        summary: 'Tokens of the site, by name, those revoked or over too; never their secrets',
        params: SiteParams,
        response: { 200: z.object({ items: z.array(AccessToken) }), ...problemResponses },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      return send(reply, jsonAnswer(200, { items: await store.tokens(site.id) }, site.zone))
    },
  )

  api.post(
    '/v1/sites/:site/tokens',
    {
      schema: {
        tags: ['accounts'],
        summary: 'Make a token for a program: its secret is in this answer and nowhere else',
        params: SiteParams,
        body: TokenBody,
        response: { 201: AccessToken.extend({ secret: z.string() }), ...problemResponses },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      const { name, role, days } = request.body
      const { secret, hash } = secrets.fresh('token')
      const createdAt = context.clock()
      const token: AccessToken = {
        id: ActorId.parse(context.newId('actor')),
        siteId: site.id,
        role,
        name,
        createdBy: request.actor.id,
        createdAt,
        expiresAt: days === null ? null : instantPlusSeconds(createdAt, days * DAY_SECONDS),
        lastUsedAt: null,
        revokedAt: null,
      }
      await store.addToken(token, hash, {
        siteId: site.id,
        at: createdAt,
        actorId: request.actor.id,
        action: 'add-token',
        effects: [{ table: 'access_token', id: token.id, before: null, after: token }],
      })
      return send(reply, jsonAnswer(201, { ...token, secret }, site.zone))
    },
  )

  api.delete(
    '/v1/sites/:site/tokens/:id',
    {
      schema: {
        tags: ['accounts'],
        summary: 'Revoke a token',
        params: SiteParams.extend({ id: z.string() }),
        response: { 204: z.undefined(), ...problemResponses },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      const id = ActorId.safeParse(request.params.id)
      const at = context.clock()
      const isRevoked =
        id.success &&
        (await store.revokeToken(site.id, id.data, at, {
          siteId: site.id,
          at,
          actorId: request.actor.id,
          action: 'revoke-token',
          effects: [
            { table: 'access_token', id: id.data, before: { revokedAt: null }, after: { revokedAt: at } },
          ],
        }))
      if (!isRevoked) throw unknownResource('token in force', request.params.id)
      return reply.code(204).send()
    },
  )
}
