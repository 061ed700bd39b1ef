import { z } from 'zod'
import { Finding, FindingWeight } from '../../domain/finding.ts'
import { Instant, LATEST_AT } from '../../domain/instant.ts'
import { checkSetup } from '../../scheduler/check/index.ts'
import { jsonAnswer, send } from '../answer.ts'
import { CAUTION } from '../caution.ts'
import { type ApiContext, setupFor } from '../context.ts'
import { problemResponses, SiteParams } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'

const SetupCheck = z.object({
  items: z.array(Finding).meta({ description: 'What matters most first; none: nothing was found' }),
  counts: z.record(FindingWeight, z.int().min(0)).meta({ description: 'How many of each weight' }),
  checkedAt: Instant,
  caution: z.string(),
})

export function checkRoutes(api: Api, context: ApiContext): void {
  api.get(
    '/v1/sites/:site/check',
    {
      schema: {
        tags: ['set-up'],
        summary: 'Read the whole set-up and list what is missing or odd, each with what to do about it',
        params: SiteParams,
        response: { 200: SetupCheck, ...problemResponses },
      },
    },
    async (request, reply) => {
      const setup = await setupFor(context, request.actor, request.params.site)
      const { site } = setup
      const checkedAt = context.clock()
      const [closures, details] = await Promise.all([
        context.store.closures(site.id, { fromAt: checkedAt, toAt: Instant.parse(LATEST_AT) }),
        context.store.personDetails(site.id),
      ])
      const personNames = new Map(details.map(({ personId, name }) => [personId, name]))
      const items = checkSetup({ ...setup, closures, personNames }, checkedAt)
      const count = (weight: FindingWeight) => items.filter((item) => item.weight === weight).length
      const counts = { missing: count('missing'), odd: count('odd'), note: count('note') }
      return send(reply, jsonAnswer(200, { items, counts, checkedAt, caution: CAUTION }, site.zone))
    },
  )
}
