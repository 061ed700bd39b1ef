import { z } from 'zod'
import { PolicyId, SiteId } from '../../domain/ids.ts'
import { Site } from '../../domain/site.ts'
import { isZone } from '../../scheduler/timeline/wall-time.ts'
import { maySee } from '../actor.ts'
import { jsonAnswer, send } from '../answer.ts'
import { type ApiContext, siteFor } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { PageQuery, pageAnswer, pageOf, pageRequest } from '../list-pages.ts'
import { defaultPolicy } from '../policies/default-policy.ts'
import { postHeaders, problemResponses, SiteParams } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'

const SiteBody = z.strictObject({
  name: Site.shape.name,
  zone: Site.shape.zone.refine(isZone, { error: 'expected an IANA time zone such as America/Chicago' }),
})

export function siteRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  api.get(
    '/v1/sites',
    {
      schema: {
        tags: ['set-up'],
        summary: 'List sites, by name',
        querystring: PageQuery,
        response: { 200: pageOf(Site), ...problemResponses },
      },
    },
    async (request, reply) => {
      const page = await context.store.sites(pageRequest(request.query))
      const items = page.items.filter((site) => maySee(request.actor, site.id))
      return send(
        reply,
        jsonAnswer(
          200,
          pageAnswer({ ...page, items }, (site) => site),
          'utc',
        ),
      )
    },
  )

  api.post(
    '/v1/sites',
    {
      schema: {
        tags: ['set-up'],
        summary: 'Add a site, with a policy to begin with',
        headers: postHeaders,
        body: SiteBody,
        response: { 201: Site, ...problemResponses },
      },
    },
    async (request, reply) => {
      const answer = await once(request, async (keeper) => {
        const site: Site = { id: SiteId.parse(context.newId('site')), ...request.body }
        const policy = defaultPolicy(PolicyId.parse(context.newId('policy')), site.id)
        const added = jsonAnswer(201, site, site.zone, { location: `/v1/sites/${site.id}` })
        await context.store.commit({
          siteId: site.id,
          planningVersionExpected: null,
          actorId: request.actor.id,
          action: 'add-site',
          reason: null,
          at: context.clock(),
          site,
          setup: [{ kind: 'policy', row: policy }],
          ...keeper.withEffect(added),
        })
        return added
      })
      return send(reply, answer)
    },
  )

  api.get(
    '/v1/sites/:site',
    {
      schema: {
        tags: ['set-up'],
        summary: 'Read one site',
        params: SiteParams,
        response: { 200: Site, ...problemResponses },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      return send(reply, jsonAnswer(200, site, site.zone))
    },
  )
}
