import { z } from 'zod'
import { type RateMark, type RatePath, RateSet } from '../../domain/rate-set.ts'
import { DEFAULT_RATES, defaultRateSource, ratePaths } from '../../scheduler/network/index.ts'
import { jsonAnswer, send } from '../answer.ts'
import { type ApiContext, setupFor } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { problemResponses, SiteParams } from '../route-schemas.ts'
import { type SetupBodies, type SetupResource, storedSchema } from '../setup/setup-resource.ts'
import { setupAddRoute, setupReadRoutes } from '../setup/setup-routes.ts'
import type { Api } from '../zod-requests.ts'
import { RateSetBody, rateSetFrom } from './rate-set-from-body.ts'

const bodies: SetupBodies = {
  create: RateSetBody,
  change: RateSetBody,
  created: (body) => RateSetBody.parse(body),
  changed: (body) => RateSetBody.parse(body),
}

const marks = RateSet.shape.marks.meta({
  description: 'Of every number, whether it is a default, set or learned',
})

const rateSets: SetupResource<'rateSet'> = {
  segment: 'rate-sets',
  kind: 'rateSet',
  noun: 'rate set',
  prefix: 'rateset',
  description:
    'One rate set is in force. A new one takes its place and the old one is retired, so that every turn still names ' +
    'the rates it was judged by: a rate set is neither changed nor retired by itself.',
  answerSchema: storedSchema(RateSet.extend({ marks }), 'RateSet'),
  bodies,
  additionTouchesTurns: true,
  rowFrom: rateSetFrom,
  present: (_context, rows) => Promise.resolve(rows.map(withEveryMark)),
}

const RatesInForce = RateSet.extend({
  id: RateSet.shape.id
    .nullable()
    .meta({ description: 'null: no set was ever stored, these are the defaults' }),
  number: z.int().min(0),
  marks,
})

export function rateSetRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  setupReadRoutes(api, context, rateSets)
  setupAddRoute(api, context, once, rateSets)

  api.get(
    '/v1/sites/:site/rate-sets/in-force',
    {
      schema: {
        tags: ['set-up'],
        summary: 'Read the rates in force, the defaults where no set was ever stored',
        params: SiteParams,
        response: { 200: RatesInForce, ...problemResponses },
      },
    },
    async (request, reply) => {
      const { site, rateSet } = await setupFor(context, request.actor, request.params.site)
      const defaults = {
        id: null,
        siteId: site.id,
        number: 0,
        name: 'Defaults',
        rates: DEFAULT_RATES,
        marks: {},
      }
      return send(reply, jsonAnswer(200, withEveryMark(rateSet ?? defaults), site.zone))
    },
  )
}

/** A stored set has the marks of what is not a default; whoever reads it wants to know of every number. */
function withEveryMark<Set extends Pick<RateSet, 'rates' | 'marks'>>(rateSet: Set): Set {
  const markOf = (path: RatePath): RateMark =>
    rateSet.marks[path] ?? { origin: 'default', source: defaultRateSource(path) ?? 'no source on record' }
  return {
    ...rateSet,
    marks: Object.fromEntries(ratePaths(rateSet.rates).map((path) => [path, markOf(path)])),
  }
}
