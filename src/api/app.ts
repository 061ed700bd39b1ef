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
import { checkRoutes } from './check/check-routes.ts'
import { closureRoutes } from './closures/closure-routes.ts'
import type { ApiContext } from './context.ts'
import { equipmentRoutes } from './equipment/equipment-routes.ts'
import { answerError, problemFrom } from './error-answers.ts'
import { eventRoutes } from './events/event-routes.ts'
import type { EventSettings } from './events/event-settings.ts'
import { exitRoutes } from './exits/exit-routes.ts'
import { furnishingRoutes } from './furnishings/furnishing-routes.ts'
import { healthRoutes } from './health/health-routes.ts'
import { answeringOnce } from './idempotency.ts'
import { onlyJson } from './json-bodies.ts'
import { adviceRoute } from './layouts/advice-route.ts'
import { layoutRoutes } from './layouts/layout-routes.ts'
import { linkRoutes } from './links/link-routes.ts'
import { refuseStrangers } from './loopback.ts'
import { networkRoute } from './network/network-route.ts'
import { observationRoutes } from './observations/observation-routes.ts'
import { openApi } from './openapi.ts'
import { pageRoutes } from './page/page-routes.ts'
import { passageRoutes } from './passages/passage-routes.ts'
import { personRoutes } from './people/person-routes.ts'
import { policyRoutes } from './policies/policy-routes.ts'
import { problemRoutes } from './problem-routes.ts'
import { rateSetRoutes } from './rate-sets/rate-set-routes.ts'
import { roomRoutes } from './rooms/room-routes.ts'
import { timelineRoutes } from './rooms/timeline-routes.ts'
import { RouteTable } from './route-table.ts'
import { sectionRoutes } from './sections/section-routes.ts'
import { shiftRoutes } from './shifts/shift-routes.ts'
import { siteDocumentRoutes } from './site-document/site-document-routes.ts'
import { SiteQueue, WRITERS_WAITING_MOST } from './site-queue.ts'
import { siteRoutes } from './sites/site-routes.ts'
import { stockChangeRoutes } from './stock-changes/stock-change-routes.ts'
import { storagePlaceRoutes } from './storage-places/storage-place-routes.ts'
import { strictQueries } from './strict-queries.ts'
import { toolRoutes } from './tools/tool-routes.ts'
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
  /** For questions that take their time; left out: the same. */
  readonly batchDecider?: Decider
  readonly clock: () => Instant
  /** A fresh id that begins with the prefix and an underscore. */
  readonly newId: (prefix: string) => string
  /** false: no log */
  readonly log: NonNullable<FastifyServerOptions['logger']>
  readonly configuration: Configuration
  /** Where writers of a site wait for each other; left out: a queue of its own. */
  readonly queue?: SiteQueue
  /** Where they are to differ from `defaultEventSettings`. */
  readonly eventSettings?: Partial<EventSettings>
}

const BODY_BYTES_MOST = 1_048_576

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
  strictQueries(app)
  onlyJson(app)
  guard(app)

  app.register(async (scope: Api) => {
    await openApi(scope, parts.configuration)
    allRoutes(scope, {
      ...parts,
      batchDecider: parts.batchDecider ?? parts.decider,
      queue: parts.queue ?? new SiteQueue(WRITERS_WAITING_MOST),
    })
  })
  return app
}

function allRoutes(api: Api, context: ApiContext): void {
  const once = answeringOnce(context)
  healthRoutes(api, context)
  problemRoutes(api)
  siteRoutes(api, context, once)
  sectionRoutes(api, context, once)
  exitRoutes(api, context, once)
  passageRoutes(api, context, once)
  roomRoutes(api, context, once)
  storagePlaceRoutes(api, context, once)
  furnishingRoutes(api, context, once)
  toolRoutes(api, context, once)
  equipmentRoutes(api, context, once)
  layoutRoutes(api, context, once)
  personRoutes(api, context, once)
  shiftRoutes(api, context, once)
  closureRoutes(api, context, once)
  stockChangeRoutes(api, context, once)
  observationRoutes(api, context, once)
  rateSetRoutes(api, context, once)
  policyRoutes(api, context, once)
  bookingRoutes(api, context, once)
  linkRoutes(api, context, once)
  timelineRoutes(api, context)
  turnRoutes(api, context)
  networkRoute(api, context)
  adviceRoute(api, context)
  checkRoutes(api, context)
  siteDocumentRoutes(api, context, once)
  warningRoutes(api, context)
  auditRoutes(api, context)
  eventRoutes(api, context)
  pageRoutes(api, context)
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
