import { z } from 'zod'
import { Instant } from '../../domain/instant.ts'
import { jsonAnswer, send } from '../answer.ts'
import { type ApiContext, setupFor } from '../context.ts'
import { PageQuery, pageAnswer, pageOf, pageRequest } from '../list-pages.ts'
import { problemResponses, SiteParams } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'
import { Warning } from './warning.ts'
import { warningPage } from './warning-page.ts'

const WarningsAnswer = pageOf(Warning).extend({
  judgedThroughAt: Instant.nullable().meta({
    description: 'Turns due from here on are yet to be looked at after a change of the hall; null: all are',
  }),
  staleCount: z.int().min(0).meta({ description: 'How many these are, whatever else they are warned of' }),
})

export function warningRoutes(api: Api, context: ApiContext): void {
  api.get(
    '/v1/sites/:site/warnings',
    {
      schema: {
        tags: ['turns'],
        summary: 'What may not come right: turns that fail, are at risk, rest on assumed hands or are stale',
        description:
          'Doors within three days come first, then those within seven, then the rest. Within each: failing, at-risk, ' +
          'assumed, stale; then by doors, then id. Ways out are looked for in the background, never on a read.',
        params: SiteParams,
        querystring: PageQuery,
        response: { 200: WarningsAnswer, ...problemResponses },
      },
    },
    async (request, reply) => {
      const setup = await setupFor(context, request.actor, request.params.site)
      const now = context.clock()
      const warnings = await warningPage(context.store, setup, now, pageRequest(request.query))
      const { judgedThroughAt, staleCount } = warnings
      const list = pageAnswer(warnings, (item) => item)
      return send(reply, jsonAnswer(200, { ...list, judgedThroughAt, staleCount }, setup.site.zone))
    },
  )
}
