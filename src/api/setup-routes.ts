/** List, create and read, for every part of a site's set-up that is simply there once it has been added. */
import type { FastifyRequest } from 'fastify'
import { z } from 'zod'
import type { SiteId } from '../domain/ids.ts'
import type { PersonDetails } from '../domain/person.ts'
import type { SiteSetup } from '../domain/snapshot.ts'
import type { SetupAddition, SetupKind, SetupRows } from '../store/store.ts'
import { jsonAnswer, send } from './answer.ts'
import { type ApiContext, setupFor, siteFor } from './context.ts'
import type { AnswerOnce } from './idempotency.ts'
import { PageQuery, pageAnswer, pageOf, pageRequest } from './list-pages.ts'
import { type Fault, refuseFaults, unknownResource } from './problems.ts'
import { postHeaders, problemResponses, SiteParams } from './route-schemas.ts'
import type { Api } from './zod-requests.ts'

/** What the routes of one part of the set-up read. */
export interface SetupReading<Kind extends SetupKind> {
  /** Last part of the path, in the plural. */
  readonly segment: string
  readonly kind: Kind
  /** How one is called in sentences, and all of them. */
  readonly noun: string
  /** As it is answered. */
  readonly answerSchema: z.ZodType
  /** Rows as they are answered; as they are, where left out. */
  readonly present?: (rows: readonly SetupRows[Kind][], siteId: SiteId) => Promise<readonly object[]>
}

export interface SetupAdding<Kind extends SetupKind, Body extends z.ZodType> extends SetupReading<Kind> {
  /** What its ids begin with. */
  readonly prefix: string
  readonly body: Body
  readonly rowFrom: (body: z.output<Body>, id: string, setup: SiteSetup) => SetupRows[Kind]
  readonly addition: (row: SetupRows[Kind]) => SetupAddition
  /** What is wrong with it in this site; nothing: an empty list. */
  readonly faults: (row: SetupRows[Kind], setup: SiteSetup) => readonly Fault[]
  readonly details?: (body: z.output<Body>, row: SetupRows[Kind]) => PersonDetails
  readonly answerFrom?: (row: SetupRows[Kind], details: PersonDetails) => object
}

export function setupReadRoutes<Kind extends SetupKind>(
  api: Api,
  context: ApiContext,
  reading: SetupReading<Kind>,
): void {
  const present = reading.present ?? ((rows) => Promise.resolve(rows))

  api.get(
    `/v1/sites/:site/${reading.segment}`,
    {
      schema: {
        tags: ['set-up'],
        summary: `List ${reading.segment.replaceAll('-', ' ')}, by id`,
        params: SiteParams,
        querystring: PageQuery,
        response: { 200: pageOf(reading.answerSchema), ...problemResponses },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      const page = await context.store.setupRows(site.id, reading.kind, pageRequest(request.query))
      const items = await present(page.items, site.id)
      return send(
        reply,
        jsonAnswer(
          200,
          pageAnswer({ ...page, items }, (item) => item),
          site.zone,
        ),
      )
    },
  )

  api.get(
    `/v1/sites/:site/${reading.segment}/:id`,
    {
      schema: {
        tags: ['set-up'],
        summary: `Read one ${reading.noun}`,
        params: SiteParams.extend({ id: z.string() }),
        response: { 200: reading.answerSchema, ...problemResponses },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      const row = await context.store.setupRow(site.id, reading.kind, request.params.id)
      if (!row) throw unknownResource(reading.noun, request.params.id)
      const [item] = await present([row], site.id)
      return send(reply, jsonAnswer(200, item, site.zone))
    },
  )
}

export function setupAddRoute<Kind extends SetupKind, Body extends z.ZodType>(
  api: Api,
  context: ApiContext,
  once: AnswerOnce,
  adding: SetupAdding<Kind, Body>,
): void {
  // One schema object of a known type: the type of the body is then the same for the route and for `rowFrom`.
  const add = async (request: FastifyRequest, siteParam: string, body: z.output<Body>) =>
    once(request, async (keeper) => {
      const setup = await setupFor(context, request.actor, siteParam)
      const row = adding.rowFrom(body, context.newId(adding.prefix), setup)
      refuseFaults(adding.faults(row, setup))
      const details = adding.details?.(body, row)
      const location = `/v1/sites/${setup.site.id}/${adding.segment}/${row.id}`
      const shown = details && adding.answerFrom ? adding.answerFrom(row, details) : row
      const answer = jsonAnswer(201, shown, setup.site.zone, { location })
      await context.store.commit({
        siteId: setup.site.id,
        planningVersionExpected: null,
        actorId: request.actor.id,
        action: `add-${adding.noun.replaceAll(' ', '-')}`,
        reason: null,
        at: context.clock(),
        setup: [adding.addition(row)],
        ...(details ? { personDetails: [details] } : {}),
        ...keeper.withEffect(answer),
      })
      return answer
    })

  api.post(
    `/v1/sites/:site/${adding.segment}`,
    {
      schema: {
        tags: ['set-up'],
        summary: `Add one ${adding.noun}`,
        params: SiteParams,
        headers: postHeaders,
        body: adding.body,
        response: { 201: adding.answerSchema, ...problemResponses },
      },
    },
    async (request, reply) =>
      send(reply, await add(request, request.params.site, adding.body.parse(request.body))),
  )
}
