/** Whatever was thrown becomes a problem document. What nobody foresaw is logged and answered without any detail. */
import type { FastifyError, FastifyReply, FastifyRequest } from 'fastify'
import { Conflict, PageKeyUnknown, ReferenceMissing } from '../store/store.ts'
import { DeciderBusy } from '../worker/decider.ts'
import { DeciderStopped } from '../worker/thread-decider.ts'
import { problemAnswer, send } from './answer.ts'
import { unknownCursor } from './list-pages.ts'
import { sendPage } from './page/frame.ts'
import { problemPage } from './page/problem-page.ts'
import { Problem, type ProblemSlug } from './problems.ts'
import { QueueFull } from './site-queue.ts'

/** What the framework finds wrong with a request, by its code. */
const frameworkFaults: ReadonlyMap<string, readonly [ProblemSlug, string]> = new Map([
  ['FST_ERR_CTP_INVALID_JSON_BODY', ['malformed-json', 'The body is not valid JSON.']],
  ['FST_ERR_CTP_EMPTY_JSON_BODY', ['malformed-json', 'The body is empty, though its type says JSON.']],
  [
    'FST_ERR_CTP_INVALID_CONTENT_LENGTH',
    ['malformed-json', 'The body is not as long as Content-Length says.'],
  ],
  ['FST_ERR_CTP_BODY_TOO_LARGE', ['too-large', 'The body is over 1 MiB (1048576 bytes).']],
  ['FST_ERR_CTP_INVALID_MEDIA_TYPE', ['unsupported-media-type', 'Send the body as application/json.']],
  ['FST_ERR_BAD_URL', ['bad-url', 'The path is not correctly percent-encoded.']],
  ['FST_ERR_MAX_PARAM_LENGTH', ['bad-url', 'A part of the path is too long.']],
])

const RETRY_AFTER_SECONDS = '1'

export function problemFrom(error: Error): Problem {
  if (error instanceof Problem) return error
  if (error instanceof DeciderBusy || error instanceof QueueFull) {
    return new Problem('busy', 'Too many requests are waiting.', {}, { 'retry-after': RETRY_AFTER_SECONDS })
  }
  if (error instanceof DeciderStopped) {
    // It writes nothing, so whatever it was to decide may be asked again.
    return new Problem(
      'busy',
      'The part that decides is starting again.',
      {},
      { 'retry-after': RETRY_AFTER_SECONDS },
    )
  }
  if (error instanceof PageKeyUnknown) return unknownCursor()
  // Ids were looked up before; what is gone since went in between.
  if (error instanceof ReferenceMissing)
    return new Problem('conflict', 'Something it refers to has just changed.')
  if (error instanceof Conflict) return new Problem('conflict', 'Others changed the site at the same time.')
  const code = 'code' in error && typeof error.code === 'string' ? error.code : ''
  const [slug, detail] = frameworkFaults.get(code) ?? ['internal', '']
  return slug === 'internal' ? new Problem('internal', 'The log has the details.') : new Problem(slug, detail)
}

export function answerError(
  error: FastifyError | Error,
  request: FastifyRequest,
  reply: FastifyReply,
): FastifyReply {
  const problem = problemFrom(error)
  if (problem.slug === 'internal') request.log.error({ err: error }, 'unforeseen')
  if (problem.slug === 'not-signed-in' && isForBrowser(request)) return reply.redirect('/sign-in', 303)
  if (isForBrowser(request) && !refusesStrangers.has(problem.slug))
    return sendPage(reply.headers(problem.headers), problemPage(problem), problem.status)
  const extras = problem.slug === 'internal' ? { requestId: request.id } : {}
  return send(
    reply,
    problemAnswer(
      new Problem(problem.slug, problem.message, { ...problem.extras, ...extras }, problem.headers),
    ),
  )
}

/** Whoever comes from elsewhere is shown no page of this service. */
const refusesStrangers: ReadonlySet<ProblemSlug> = new Set(['host-not-allowed', 'origin-not-allowed'])

/** The address is that of a page; or of nothing, outside the API, and a browser was sent there. */
function isForBrowser({ routeOptions, url, headers }: FastifyRequest): boolean {
  if (routeOptions.url !== undefined) return routeOptions.config.isPage === true
  return !url.startsWith('/v1') && /\btext\/html\b/.test(headers.accept ?? '')
}
