/** The HTTP service, put together. It listens when told to, and touches nothing before. */
import fastify, { type FastifyInstance, type FastifyServerOptions, LogController } from 'fastify'
import type { Configuration } from '../configuration.ts'
import type { Instant } from '../domain/instant.ts'
import type { Store } from '../store/store.ts'
import type { Decider } from '../worker/decider.ts'
import { type Actor, actorFrom } from './actor.ts'
import { problemAnswer, send } from './answer.ts'
import { auditRoutes } from './audit/audit-routes.ts'
import { bookingRoutes } from './bookings/booking-routes.ts'
import { closureRoutes } from './closures/closure-routes.ts'
import type { ApiContext } from './context.ts'
import { equipmentRoutes } from './equipment/equipment-routes.ts'
import { answerError, problemFrom } from './error-answers.ts'
import { furnishingRoutes } from './furnishings/furnishing-routes.ts'
import { healthRoutes } from './health/health-routes.ts'
import { answeringOnce } from './idempotency.ts'
import { layoutRoutes } from './layouts/layout-routes.ts'
import { refuseStrangers } from './loopback.ts'
import { openApi } from './openapi.ts'
import { pageRoutes } from './page/page-routes.ts'
import { personRoutes } from './people/person-routes.ts'
import { policyRoutes } from './policies/policy-routes.ts'
import { problemRoutes } from './problem-routes.ts'
import { Problem } from './problems.ts'
import { roomRoutes } from './rooms/room-routes.ts'
import { timelineRoutes } from './rooms/timeline-routes.ts'
import { RouteTable } from './route-table.ts'
import { sectionRoutes } from './sections/section-routes.ts'
import { shiftRoutes } from './shifts/shift-routes.ts'
import { SiteQueue } from './site-queue.ts'
import { siteRoutes } from './sites/site-routes.ts'
import { storagePlaceRoutes } from './storage-places/storage-place-routes.ts'
import { turnRoutes } from './turns/turn-routes.ts'
import { warningRoutes } from './warnings/warning-routes.ts'
import { type Api, type ZodRequests, zodValidator } from './zod-requests.ts'

declare module 'fastify' {
  interface FastifyRequest {
    actor: Actor
    /** The body as it came; null when there was none. */
    rawBody: Buffer | null
  }
}

export interface AppParts {
  readonly store: Store
  readonly decider: Decider
  readonly clock: () => Instant
  /** A fresh id that begins with the prefix and an underscore. */
  readonly newId: (prefix: string) => string
  /** false: no log */
  readonly log: NonNullable<FastifyServerOptions['logger']>
  readonly configuration: Configuration
}

const BODY_BYTES_MOST = 1_048_576
/** A site with more writers waiting than this is told to come back. */
const WRITERS_WAITING_MOST = 64

export function buildApp({ log, ...parts }: AppParts): FastifyInstance {
  const app: Api = fastify({
    logger: log,
    // A line for each request would cost more than most requests do.
    logController: new LogController({ disableRequestLogging: true }),
    bodyLimit: BODY_BYTES_MOST,
    frameworkErrors: (error, _request, reply) => {
      send(reply, problemAnswer(problemFrom(error)))
    },
  }).withTypeProvider<ZodRequests>()
  app.setValidatorCompiler(zodValidator)
  app.setSerializerCompiler(() => JSON.stringify)
  app.setErrorHandler(answerError)
  const routes = new RouteTable(app)
  app.setNotFoundHandler((request) => {
    throw routes.problemFor(request.method, request.url)
  })
  onlyJson(app)
  guard(app)

  app.register(async (scope: Api) => {
    await openApi(scope, parts.configuration)
    allRoutes(scope, { ...parts, queue: new SiteQueue(WRITERS_WAITING_MOST) })
  })
  return app
}

function allRoutes(api: Api, context: ApiContext): void {
  const once = answeringOnce(context)
  healthRoutes(api, context)
  problemRoutes(api)
  siteRoutes(api, context, once)
  sectionRoutes(api, context, once)
  roomRoutes(api, context, once)
  storagePlaceRoutes(api, context, once)
  furnishingRoutes(api, context, once)
  equipmentRoutes(api, context, once)
  layoutRoutes(api, context, once)
  personRoutes(api, context, once)
  policyRoutes(api, context, once)
  shiftRoutes(api, context, once)
  closureRoutes(api, context, once)
  bookingRoutes(api, context, once)
  timelineRoutes(api, context)
  turnRoutes(api, context)
  warningRoutes(api, context)
  auditRoutes(api, context)
  pageRoutes(api, context)
}

/** Bodies are JSON or nothing; the bytes are kept for the hash of a repeated request. */
function onlyJson(app: Api): void {
  const parse = app.getDefaultJsonParser('error', 'error')
  app.decorateRequest('rawBody', null)
  app.removeAllContentTypeParsers()
  app.addContentTypeParser('application/json', { parseAs: 'buffer' }, (request, body: Buffer, done) => {
    request.rawBody = body
    const text = body.toString('utf8')
    parse(request, text, (fault, parsed) =>
      done(fault && new Problem('malformed-json', whyNotJson(text)), parsed),
    )
  })
}

/** In the words of the parser, which name the place. */
function whyNotJson(text: string): string {
  if (text.trim() === '') return 'The body is empty, though its type says JSON.'
  try {
    JSON.parse(text)
    return 'The body has a key that is not taken (__proto__ or constructor).'
  } catch (fault) {
    return `The body is not valid JSON: ${fault instanceof Error ? fault.message : 'it cannot be read'}.`
  }
}

function guard(app: Api): void {
  app.decorateRequest('actor')
  app.addHook('onRequest', async (request, reply) => {
    reply.headers({
      'x-content-type-options': 'nosniff',
      'content-security-policy':
        "default-src 'none'; style-src 'self'; frame-ancestors 'none'; base-uri 'none'",
      'referrer-policy': 'no-referrer',
      'cache-control': 'no-store',
    })
    refuseStrangers(request.headers.host, request.headers.origin)
    request.actor = actorFrom(request.headers['x-actor'])
  })
}
