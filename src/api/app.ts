/** The HTTP service, put together. It listens when told to, and touches nothing before. */
import cookies from '@fastify/cookie'
import fastify, { type FastifyInstance, type FastifyServerOptions, LogController } from 'fastify'
import type { Accounts } from '../accounts/accounts.ts'
import type { Mail } from '../accounts/mail.ts'
import { secretsUnder } from '../accounts/secrets.ts'
import { type Configuration, isOnLoopback } from '../configuration.ts'
import type { Instant } from '../domain/instant.ts'
import type { Store } from '../store/store.ts'
import type { Decider } from '../worker/decider.ts'
import { everyRouteHasAccess, refuseUnlessAllowed } from './access/guard.ts'
import { identified } from './access/identify.ts'
import { sessionCookie } from './accounts/account-context.ts'
import { memberRoutes } from './accounts/member-routes.ts'
import { newAccountRoutes } from './accounts/new-account-routes.ts'
import { ownAccountRoutes } from './accounts/own-account-routes.ts'
import { sessionRoutes } from './accounts/session-routes.ts'
import { signInPages } from './accounts/sign-in-pages.ts'
import { tokenRoutes } from './accounts/token-routes.ts'
import type { Actor } from './actor.ts'
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
import { type Limits, limitRequests, limitsOf, SIGN_INS_PER_MINUTE } from './limits.ts'
import { linkRoutes } from './links/link-routes.ts'
import { isLoopbackHost, refuseStrangers } from './loopback.ts'
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
    /** Of the session by which they are signed in; null: they are not, or otherwise. */
    sessionSecret: string | null
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
  /** Secrets are hashed under it: 32 bytes. */
  readonly secretKey: Uint8Array
  readonly mail: Mail
  /** Where they are to differ from the usual ones. */
  readonly limits?: Limits
  /** Where writers of a site wait for each other; left out: a queue of its own. */
  readonly queue?: SiteQueue
  /** Where they are to differ from `defaultEventSettings`. */
  readonly eventSettings?: Partial<EventSettings>
}

const BODY_BYTES_MOST = 1_048_576
/** Until head and body have come; answers may take longer, and streams of events do. */
const REQUEST_MILLISECONDS_MOST = 30_000

export function buildApp({ log, ...parts }: AppParts): FastifyInstance {
  const app: Api = fastify({
    logger: log,
    // A line for each request would cost more than most requests do.
    logController: new LogController({ disableRequestLogging: true }),
    bodyLimit: BODY_BYTES_MOST,
    requestTimeout: REQUEST_MILLISECONDS_MOST,
    trustProxy: (_address, hop) => hop < parts.configuration.trustProxy,
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
  const { configuration } = parts
  const isSecure = configuration.publicUrl?.startsWith('https:') === true
  const cookie = sessionCookie(isSecure)
  const accounts: Accounts = {
    store: parts.store.accounts,
    secrets: secretsUnder(parts.secretKey),
    mail: parts.mail,
    clock: parts.clock,
    newId: parts.newId,
    publicUrl: () => configuration.publicUrl ?? listeningAt(app),
  }
  const limits = parts.limits ?? limitsOf(configuration.requestsPerMinute, SIGN_INS_PER_MINUTE)
  everyRouteHasAccess(app)
  limitRequests(app, limits)
  app.register(cookies)
  app.register(atRoot(async (root) => guard(root, configuration, { accounts, cookieName: cookie.name })))
  app.register(async (scope: Api) => {
    await openApi(scope, configuration)
    allRoutes(scope, {
      ...parts,
      accounts,
      cookie,
      limits,
      batchDecider: parts.batchDecider ?? parts.decider,
      queue: parts.queue ?? new SiteQueue(WRITERS_WAITING_MOST),
    })
  })
  return app
}

/** Its hooks count for everything, also for addresses that there are not. */
function atRoot(plugin: (root: Api) => Promise<void>): (root: Api) => Promise<void> {
  return Object.assign(plugin, { [Symbol.for('skip-override')]: true })
}

/** The first address it listens on. */
function listeningAt(app: FastifyInstance): string {
  const [address] = app.addresses()
  if (!address || typeof address === 'string') return 'http://127.0.0.1'
  const host = address.family === 'IPv6' ? `[${address.address}]` : address.address
  return `http://${host}:${address.port}`
}

function allRoutes(api: Api, context: ApiContext): void {
  const once = answeringOnce(context)
  healthRoutes(api, context)
  sessionRoutes(api, context)
  newAccountRoutes(api, context)
  ownAccountRoutes(api, context)
  memberRoutes(api, context)
  tokenRoutes(api, context)
  signInPages(api)
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

function guard(
  api: Api,
  configuration: Configuration,
  { accounts, cookieName }: { readonly accounts: Accounts; readonly cookieName: string },
): void {
  const isPublicByTls = configuration.publicUrl?.startsWith('https:') === true
  const isDemoHere = configuration.demo && isOnLoopback(configuration)
  api.decorateRequest('actor')
  api.decorateRequest('sessionSecret', null)
  api.addHook('onRequest', async (request, reply) => {
    reply.headers({ ...SAFETY_HEADERS, ...(isPublicByTls ? { 'strict-transport-security': HSTS } : {}) })
    refuseStrangers(configuration, request.headers.host, request.headers.origin)
    const hasVisitor = isDemoHere && isLoopbackHost(request.headers.host)
    const { actor, sessionSecret } = await identified(request, { accounts, cookieName, hasVisitor })
    request.actor = actor
    request.sessionSecret = sessionSecret
    if (actor.kind === 'visitor') reply.header('x-demo', VISITOR_HEADER)
    refuseUnlessAllowed(request)
  })
}

/** A year, as browsers ask for. */
const HSTS = 'max-age=31536000'
const VISITOR_HEADER = 'signed in as a visitor: coordinator of the demo site'
const SAFETY_HEADERS = {
  'x-content-type-options': 'nosniff',
  'content-security-policy':
    "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'",
  'referrer-policy': 'no-referrer',
  'cache-control': 'no-store',
} as const
