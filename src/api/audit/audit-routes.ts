import { z } from 'zod'
import { ActorId, SiteId } from '../../domain/ids.ts'
import { Instant } from '../../domain/instant.ts'
import { jsonAnswer, send } from '../answer.ts'
import { type ApiContext, siteFor } from '../context.ts'
import { PageQuery, pageAnswer, pageOf, pageRequest } from '../list-pages.ts'
import { problemResponses, SiteParams } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'

const AuditAnswer = z.object({
  sequence: z.int(),
  siteId: SiteId,
  writtenAt: Instant,
  actorId: ActorId,
  action: z.string(),
  reason: z.string().nullable(),
  planningVersion: z.int(),
  effects: z.array(
    z.object({
      table: z.string(),
      id: z.string(),
      before: z.unknown().meta({ description: 'The row as it was; null: it is new' }),
      after: z.unknown(),
    }),
  ),
  previousHash: z.string().nullable().meta({
    description:
      'The hash of the entry before it, which may be of another site; null: it is the first of all',
  }),
  hash: z.string().meta({ description: 'SHA-256 over this entry and the hash of the one before it, in hex' }),
})

export function auditRoutes(api: Api, context: ApiContext): void {
  api.get(
    '/v1/sites/:site/audit',
    {
      schema: {
        tags: ['audit'],
        summary: 'Who did what and what it changed, oldest first',
        params: SiteParams,
        querystring: PageQuery,
        response: { 200: pageOf(AuditAnswer), ...problemResponses },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      const page = await context.store.audit(site.id, pageRequest(request.query))
      const items = pageAnswer(page, ({ at, ...entry }) => ({ ...entry, writtenAt: at }))
      return send(reply, jsonAnswer(200, items, site.zone))
    },
  )
}
