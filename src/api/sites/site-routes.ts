import { isDeepStrictEqual } from 'node:util'
import { z } from 'zod'
import { PolicyId, SiteId } from '../../domain/ids.ts'
import { Site } from '../../domain/site.ts'
import { dayAndTimeOf, isZone } from '../../scheduler/timeline/wall-time.ts'
import { type Actor, maySee } from '../actor.ts'
import { jsonAnswer, send } from '../answer.ts'
import { type ApiContext, setupFor, siteFor } from '../context.ts'
import { commitChecked } from '../decide-and-commit.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { refuseOtherEtag, requireIfMatch } from '../if-match.ts'
import { PageQuery, pageAnswer, pageOf, pageRequest } from '../list-pages.ts'
import { defaultPolicy } from '../policies/default-policy.ts'
import { bodyFault, type Fault, refuseFaults } from '../problems.ts'
import { changeHeaders, postHeaders, problemResponses, SiteParams } from '../route-schemas.ts'
import { patchOf } from '../setup/body-schemas.ts'
import { setupWrite } from '../setup/setup-write.ts'
import type { Api } from '../zod-requests.ts'
import { siteEtag } from './site-etag.ts'

const SiteBody = z.strictObject({
  ...Site.omit({ id: true }).shape,
  zone: Site.shape.zone.refine(isZone, { error: 'expected an IANA time zone such as America/Chicago' }),
})
const SitePatch = patchOf(SiteBody)

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
        const headers = { location: `/v1/sites/${site.id}`, etag: siteEtag(site) }
        const added = jsonAnswer(201, site, site.zone, headers)
        await context.store.commit({
          siteId: site.id,
          planningVersionExpected: null,
          actorId: request.actor.id,
          action: 'add-site',
          reason: null,
          at: context.clock(),
          site,
          setup: [setupWrite('policy', null, policy, false)],
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
        summary: 'Read one site; the ETag is made of what it says',
        params: SiteParams,
        response: { 200: Site, ...problemResponses },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      return send(reply, jsonAnswer(200, site, site.zone, { etag: siteEtag(site) }))
    },
  )

  api.patch(
    '/v1/sites/:site',
    {
      schema: {
        tags: ['set-up'],
        summary: 'Change a site; what is left out stays',
        description:
          'The time zone cannot change while bookings are to come: their wall times would move. A site is not retired.',
        params: SiteParams,
        headers: changeHeaders,
        body: SitePatch,
        response: { 200: Site, ...problemResponses },
      },
    },
    async (request, reply) => {
      const { actor, body, params, headers } = request
      const current = await siteFor(context, actor, params.site)
      const ifMatch = requireIfMatch(headers['if-match'], 'site')
      const answer = await commitChecked(context, {
        site: current,
        actorId: actor.id,
        action: 'change-site',
        keeper: null,
        prepare: async () => {
          const before = await siteFor(context, actor, params.site)
          refuseOtherEtag(ifMatch, siteEtag(before), 'site')
          const site = Site.parse({ ...before, ...body })
          const changed = jsonAnswer(200, site, site.zone, { etag: siteEtag(site) })
          if (isDeepStrictEqual(site, before)) return { settled: changed }
          if (site.zone !== before.zone) refuseFaults(await zoneFaults(context, actor, before))
          return { site, answer: changed }
        },
      })
      return send(reply, answer)
    },
  )
}

async function zoneFaults(context: ApiContext, actor: Actor, site: Site): Promise<Fault[]> {
  const { rooms } = await setupFor(context, actor, site.id)
  const use = { roomIds: rooms.map(({ id }) => id), layoutIds: [] }
  const [next] = await context.store.comingBookings(site.id, context.clock(), use, 1)
  if (!next) return []
  const when = dayAndTimeOf(next.doorsAt, site.zone)
  const message = `the zone stays while bookings are to come, the next one ${next.title} with doors on ${when}: their wall times would move`
  return [bodyFault('/zone', message)]
}
