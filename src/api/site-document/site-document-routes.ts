import type { FastifyError, FastifyReply, FastifyRequest, FastifySchemaCompiler } from 'fastify'
import { z } from 'zod'
import { Site } from '../../domain/site.ts'
import { type Answer, JSON_TYPE, jsonAnswer, send } from '../answer.ts'
import { type ApiContext, siteFor } from '../context.ts'
import { answerError } from '../error-answers.ts'
import type { AnswerKeeper, AnswerOnce } from '../idempotency.ts'
import { Problem } from '../problems.ts'
import { postHeaders, problemResponses, SiteParams } from '../route-schemas.ts'
import { wire } from '../wire.ts'
import { type Api, zodValidator } from '../zod-requests.ts'
import { documentFileName } from './document-file-name.ts'
import { siteDocument } from './export-site.ts'
import { countsOf, foundSite, refuseKnownSite, refuseWhatIsThere } from './import-site.ts'
import { readDocument } from './read-document.ts'
import { SiteDocument } from './site-document.ts'

/** 5 MiB: some ten times the largest site known, and still read in one go. */
const DOCUMENT_BYTES_MOST = 5_242_880

const DryRunQuery = z.strictObject({
  dryRun: z
    .enum(['true', 'false'], { error: 'expected true or false' })
    .transform((dryRun) => dryRun === 'true')
    .default(false)
    .meta({ description: 'true: only what would be imported, nothing is written' }),
})

const Imported = z.object({
  written: z.boolean().meta({ description: 'false: it was a dry run' }),
  site: Site,
  counts: z.record(z.string(), z.int()).meta({ description: 'How many of each, by member of the document' }),
})

export function siteDocumentRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  api.get(
    '/v1/sites/:site/export',
    {
      schema: {
        tags: ['set-up'],
        summary: 'The whole set-up of a site in one document',
        params: SiteParams,
        response: { 200: SiteDocument, ...problemResponses },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      const now = context.clock()
      const document = await siteDocument(context.store, site, now)
      return send(reply, {
        status: 200,
        headers: {
          'content-type': JSON_TYPE,
          'content-disposition': `attachment; filename="${documentFileName(site, now)}"`,
        },
        // For people too, who compare and edit it.
        body: `${JSON.stringify(wire(document, site.zone), null, 2)}\n`,
      })
    },
  )

  api.register(async (scope: Api) => importRoute(scope, context, once))

  api.get(
    '/schemas/site-document.json',
    {
      schema: {
        tags: ['documents'],
        summary: 'The JSON Schema of the document that a site is exported to and imported from',
        response: { 200: z.looseObject({}) },
      },
    },
    async (_request, reply) =>
      send(reply, {
        status: 200,
        headers: { 'content-type': 'application/schema+json; charset=utf-8' },
        body: JSON.stringify(z.toJSONSchema(SiteDocument, { io: 'input' }), null, 2),
      }),
  )
}

function importRoute(scope: Api, context: ApiContext, once: AnswerOnce): void {
  scope.setErrorHandler(answerErrorOfImport)
  scope.setValidatorCompiler(allButTheBody)
  scope.post(
    '/v1/sites/import',
    {
      bodyLimit: DOCUMENT_BYTES_MOST,
      schema: {
        tags: ['set-up'],
        summary: 'A new site from a document, all of it or nothing',
        querystring: DryRunQuery,
        headers: postHeaders,
        body: SiteDocument,
        response: { 200: Imported, 201: Imported, ...problemResponses },
      },
    },
    async (request, reply) => {
      const { dryRun } = request.query
      const answer = dryRun
        ? await importSite(context, request, null)
        : await once(request, (keeper) => importSite(context, request, keeper))
      return send(reply, answer)
    },
  )
}

/** The document is read row by row in the handler: far more can be wrong with it than with other bodies. */
const allButTheBody: FastifySchemaCompiler<z.ZodType> = (part) =>
  part.httpPart === 'body' ? (value: unknown) => ({ value }) : zodValidator(part)

/** @param keeper  null: a dry run */
async function importSite(
  context: ApiContext,
  request: FastifyRequest,
  keeper: AnswerKeeper | null,
): Promise<Answer> {
  const { store } = context
  const now = context.clock()
  const document = await readDocument(request.body, now)
  const { site } = document
  const counts = countsOf(document)
  if (!keeper) {
    await refuseWhatIsThere(store, document)
    return jsonAnswer(200, { written: false, site, counts }, site.zone)
  }
  await refuseKnownSite(store, site)
  const location = `/v1/sites/${site.id}`
  const answer = jsonAnswer(201, { written: true, site, counts }, site.zone, { location })
  await foundSite(store, document, { actorId: request.actor.id, at: now, ...keeper.withEffect(answer) })
  return answer
}

function answerErrorOfImport(
  error: FastifyError | Error,
  request: FastifyRequest,
  reply: FastifyReply,
): FastifyReply {
  const isTooLarge = 'code' in error && error.code === 'FST_ERR_CTP_BODY_TOO_LARGE'
  const meant = isTooLarge
    ? new Problem('too-large', `The document is over 5 MiB (${DOCUMENT_BYTES_MOST} bytes).`)
    : error
  return answerError(meant, request, reply)
}
