/** The whole life of every part of a site's set-up: list, read, add, change, retire. */
import { z } from 'zod'
import { DecisionAnswer } from '../../domain/decision.ts'
import type { SetupKind } from '../../domain/setup.ts'
import { jsonAnswer, send } from '../answer.ts'
import { type ApiContext, siteFor } from '../context.ts'
import { DryRunAnswer, DryRunQuery } from '../dry-run.ts'
import type { AnswerKeeper, AnswerOnce } from '../idempotency.ts'
import { etagOf } from '../if-match.ts'
import { PageQuery, pageAnswer, pageOf, pageRequest } from '../list-pages.ts'
import { unknownResource } from '../problems.ts'
import { changeHeaders, postHeaders, problemResponses, SiteParams } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'
import { addRow, changeRow, retireRow } from './add-change-retire.ts'
import { presented } from './setup-answers.ts'
import type { SetupReading, SetupResource } from './setup-resource.ts'

export const RowParams = SiteParams.extend({ id: z.string() })

const RetiredQuery = z.strictObject({
  retired: z
    .enum(['true', 'false'], { error: 'expected true or false' })
    .transform((retired) => retired === 'true')
    .default(false)
    .meta({ description: 'true: those that are out of use too' }),
})

export function setupReadRoutes<Kind extends SetupKind>(
  api: Api,
  context: ApiContext,
  reading: SetupReading<Kind>,
): void {
  const { segment, kind, noun, answerSchema } = reading
  const described = reading.description === undefined ? {} : { description: reading.description }

  api.get(
    `/v1/sites/:site/${segment}`,
    {
      schema: {
        tags: ['set-up'],
        summary: `List ${segment.replaceAll('-', ' ')} in force, by id`,
        ...described,
        params: SiteParams,
        querystring: PageQuery.extend(RetiredQuery.shape),
        response: { 200: pageOf(answerSchema), ...problemResponses },
      },
    },
    async (request, reply) => {
      const { retired, ...page } = request.query
      const site = await siteFor(context, request.actor, request.params.site)
      const stored = await context.store.setupRows(site.id, kind, { retired }, pageRequest(page))
      const items = await presented(context, reading, stored.items, site.id)
      return send(
        reply,
        jsonAnswer(
          200,
          pageAnswer({ ...stored, items }, (item) => item),
          site.zone,
        ),
      )
    },
  )

  api.get(
    `/v1/sites/:site/${segment}/:id`,
    {
      schema: {
        tags: ['set-up'],
        summary: `Read one ${noun}, retired or not; the ETag is its version`,
        ...described,
        params: RowParams,
        response: { 200: answerSchema, ...problemResponses },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      const stored = await context.store.setupRow(site.id, kind, request.params.id)
      if (!stored) throw unknownResource(noun, request.params.id)
      const [item] = await presented(context, reading, [stored], site.id)
      return send(reply, jsonAnswer(200, item, site.zone, { etag: etagOf(stored) }))
    },
  )
}

/** All five routes. */
export function setupRoutes<Kind extends SetupKind>(
  api: Api,
  context: ApiContext,
  once: AnswerOnce,
  resource: SetupResource<Kind>,
): void {
  setupReadRoutes(api, context, resource)
  setupAddRoute(api, context, once, resource)
  setupChangeRoutes(api, context, resource)
}

export function setupAddRoute<Kind extends SetupKind>(
  api: Api,
  context: ApiContext,
  once: AnswerOnce,
  resource: SetupResource<Kind>,
): void {
  const decided = resource.additionTouchesTurns
    ? '; always taken, and the decision says which turns then fail'
    : ''
  api.post(
    `/v1/sites/:site/${resource.segment}`,
    {
      schema: {
        tags: ['set-up'],
        summary: `Add one ${resource.noun}${decided}`,
        ...(resource.description === undefined ? {} : { description: resource.description }),
        params: SiteParams,
        querystring: DryRunQuery,
        headers: postHeaders,
        body: resource.bodies.create,
        response: { 200: DryRunAnswer, 201: writtenSchema(resource), ...problemResponses },
      },
    },
    async (request, reply) => {
      const { site } = request.params
      const { dryRun } = request.query
      const add = (keeper: AnswerKeeper | null) =>
        addRow(context, request, site, resource, { dryRun, keeper })
      return send(reply, dryRun ? await add(null) : await once(request, add))
    },
  )
}

function setupChangeRoutes<Kind extends SetupKind>(
  api: Api,
  context: ApiContext,
  resource: SetupResource<Kind>,
): void {
  const { segment, noun } = resource
  const schema = {
    tags: ['set-up'],
    params: RowParams,
    querystring: DryRunQuery,
    headers: changeHeaders,
    response: { 200: z.union([writtenSchema(resource), DryRunAnswer]), ...problemResponses },
  }

  api.patch(
    `/v1/sites/:site/${segment}/:id`,
    {
      schema: {
        ...schema,
        summary: `Change one ${noun}; what is left out stays, and turns it touches are judged anew`,
        description:
          'A field that is named is taken whole. What would break another part of the set-up is refused.',
        body: resource.bodies.change,
      },
    },
    async (request, reply) =>
      send(reply, await changeRow(context, request, request.params, resource, request.query)),
  )

  api.delete(
    `/v1/sites/:site/${segment}/:id`,
    {
      schema: {
        ...schema,
        summary: `Retire one ${noun}; it stays readable`,
        description:
          'Refused with still-in-use while another part of the set-up, or a coming booking, needs it.',
      },
    },
    async (request, reply) =>
      send(reply, await retireRow(context, request, request.params, resource, request.query)),
  )
}

function writtenSchema<Kind extends SetupKind>({ answerSchema }: SetupResource<Kind>) {
  return z.object({ ...answerSchema.shape, decision: DecisionAnswer })
}
