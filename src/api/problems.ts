/**
 * Every way in which a request can go wrong, as RFC 9457 problem details. `type` is a path that is served and never
 * changes, `title` is the same each time, `detail` is for people and is never parsed.
 */
import { z } from 'zod'

export interface ProblemType {
  readonly title: string
  readonly status: number
  /** Whether the same request, sent again, may succeed. */
  readonly retryHelps: boolean
  /** What it means and what to do next, for whoever looks the type up. */
  readonly meaning: string
}

const types = {
  'malformed-json': {
    title: 'The body is not JSON',
    status: 400,
    retryHelps: false,
    meaning:
      'The body could not be read as JSON, or was empty where one is needed. Correct it and send it again.',
  },
  'bad-url': {
    title: 'The address cannot be read',
    status: 400,
    retryHelps: false,
    meaning: 'The path is wrongly encoded or far too long. Correct it and send it again.',
  },
  'not-signed-in': {
    title: 'Nobody is signed in',
    status: 401,
    retryHelps: false,
    meaning:
      'Sign in by POST to /v1/session, or send the token of a program as `Authorization: Bearer …`. What takes part ' +
      'without an account is listed in docs/access.md.',
  },
  'bad-token': {
    title: 'The token does not count',
    status: 401,
    retryHelps: false,
    meaning: 'The header Authorization holds no token, or one that is unknown, revoked or over.',
  },
  'sign-in-refused': {
    title: 'Address and password do not belong together',
    status: 401,
    retryHelps: false,
    meaning:
      'There is no account with this address and password; which of them is wrong is not told. A link that signs in is ' +
      'sent by POST to /v1/sign-in-links.',
  },
  'csrf-missing': {
    title: 'The request does not come from a page of this service',
    status: 403,
    retryHelps: false,
    meaning:
      'Whoever is signed in by cookie sends the `csrfToken` of GET /v1/session in the header X-CSRF-Token with whatever ' +
      'changes something.',
  },
  'not-allowed': {
    title: 'Your role does not allow that',
    status: 403,
    retryHelps: false,
    meaning: 'The role in this site is another than those that may. docs/access.md has the table.',
  },
  'account-needed': {
    title: 'That takes an account of your own',
    status: 403,
    retryHelps: false,
    meaning: 'Tokens of programs and the visitor of the demo have no account to read or change.',
  },
  'link-gone': {
    title: 'The link does not count any more',
    status: 410,
    retryHelps: false,
    meaning: 'Links count once and for a while. Ask for a new one.',
  },
  'too-many-requests': {
    title: 'Too many requests',
    status: 429,
    retryHelps: true,
    meaning: 'Wait for the seconds in Retry-After.',
  },
  'origin-not-allowed': {
    title: 'Pages of other origins may not use this service',
    status: 403,
    retryHelps: false,
    meaning:
      'The request was made by a page that this computer did not serve. Open the page from this service.',
  },
  'unknown-route': {
    title: 'There is nothing at this address',
    status: 404,
    retryHelps: false,
    meaning: 'No route has this path. /openapi.json lists all that there are.',
  },
  'unknown-resource': {
    title: 'There is no such thing',
    status: 404,
    retryHelps: false,
    meaning:
      'The route exists, the thing it names does not, or not in this site. List the collection to find its id.',
  },
  'method-not-allowed': {
    title: 'This address does not take this method',
    status: 405,
    retryHelps: false,
    meaning: 'The header Allow lists the methods that the address takes.',
  },
  'does-not-fit': {
    title: 'The booking does not fit',
    status: 409,
    retryHelps: false,
    meaning:
      'The site cannot take the booking as asked: `decision` holds the reasons with their numbers, the turns before ' +
      'and after, and what would be accepted instead. Where every reason that speaks against it is `overridable`, it is ' +
      'taken with `takeRisk`. Nothing was written.',
  },
  'already-begun': {
    title: 'It has already begun',
    status: 409,
    retryHelps: false,
    meaning: 'What has begun cannot be booked, moved or cancelled any more.',
  },
  'already-cancelled': {
    title: 'The booking is cancelled',
    status: 409,
    retryHelps: false,
    meaning: 'A cancelled booking stays as it is. Make a new one.',
  },
  'hold-is-over': {
    title: 'The hold is over',
    status: 409,
    retryHelps: false,
    meaning:
      'Nobody confirmed the booking before its hold ended, so it was given up, and with it every booking of its link; ' +
      'others may have the room by now. Ask for the booking anew: it is decided on as if it had never been held.',
  },
  'not-a-hold': {
    title: 'The booking is firm',
    status: 409,
    retryHelps: false,
    meaning:
      'Only a hold is confirmed or given another end. A firm booking does not turn into a hold: change it, or cancel it ' +
      'and hold the room anew.',
  },
  'not-linked': {
    title: 'The bookings are not linked',
    status: 409,
    retryHelps: false,
    meaning: 'No booking has this link any more: each is by itself already.',
  },
  'turn-is-over': {
    title: 'The turn is over',
    status: 409,
    retryHelps: false,
    meaning:
      'Everything of it is done, or it was given up, or what the room was turned for is over: nothing is left to plan.',
  },
  'turn-has-begun': {
    title: 'The turn has begun',
    status: 409,
    retryHelps: false,
    meaning:
      'Its work is under way and goes on as planned. What would help is asked of turns to come; what is left of this one ' +
      'is planned by POST to its `replan`.',
  },
  'no-plan': {
    title: 'The turn has no plan',
    status: 409,
    retryHelps: false,
    meaning:
      'No plan was found when the turn was judged, so there is none to go on from. Read the turn: its reasons say what ' +
      'stands in the way.',
  },
  'already-retired': {
    title: 'It is out of use already',
    status: 409,
    retryHelps: false,
    meaning: 'What is retired stays readable and as it is. Add a new one.',
  },
  'still-in-use': {
    title: 'Something still needs it',
    status: 409,
    retryHelps: false,
    meaning:
      '`usedBy` names the parts of the set-up and the coming bookings that need it. Change, retire or cancel those ' +
      'first. Nothing was written.',
  },
  'already-there': {
    title: 'It is there already',
    status: 409,
    retryHelps: false,
    meaning:
      'The document would found a site, or bring a row, under an id that is taken. `errors` says which. Nothing is ever ' +
      'overwritten: import it into another database, or give the site and its rows other ids.',
  },
  conflict: {
    title: 'The site is changing too fast',
    status: 409,
    retryHelps: true,
    meaning:
      'Others changed the site each time this request was about to be written. Send it again in a moment.',
  },
  'version-mismatch': {
    title: 'Somebody else changed it first',
    status: 412,
    retryHelps: false,
    meaning:
      'If-Match names a version that is no longer current. Read it again, look at what changed, then decide.',
  },
  'too-large': {
    title: 'The body is too large',
    status: 413,
    retryHelps: false,
    meaning:
      'A body may have at most 1 MiB (1048576 bytes), the document of a whole site 5 MiB (5242880 bytes).',
  },
  'unsupported-media-type': {
    title: 'The body is of a kind that is not read here',
    status: 415,
    retryHelps: false,
    meaning: 'Send the body as application/json.',
  },
  'host-not-allowed': {
    title: 'The service answers this computer only',
    status: 421,
    retryHelps: false,
    meaning: 'The header Host must name this computer: localhost, 127.0.0.1 or [::1], with any port.',
  },
  'invalid-input': {
    title: 'The input cannot be taken',
    status: 422,
    retryHelps: false,
    meaning: '`errors` says for each fault where it is and what would be right. Nothing was written.',
  },
  'idempotency-key-reused': {
    title: 'The key was used for another request',
    status: 422,
    retryHelps: false,
    meaning: 'The same Idempotency-Key came before with a different body. Take a new key for a new request.',
  },
  'precondition-required': {
    title: 'Say which version you are changing',
    status: 428,
    retryHelps: false,
    meaning:
      'Send If-Match with the ETag that came with the last read, so that nobody overwrites what they did not see.',
  },
  internal: {
    title: 'Something went wrong inside',
    status: 500,
    retryHelps: false,
    meaning: 'A fault of the program, now in its log under the request id that came with the answer.',
  },
  busy: {
    title: 'The service is busy',
    status: 503,
    retryHelps: true,
    meaning:
      'More requests are waiting than are taken in at once. Send it again after the seconds in Retry-After.',
  },
} as const satisfies Readonly<Record<string, ProblemType>>

export type ProblemSlug = keyof typeof types

/** Every type by its slug, by status. */
export const problemTypes: ReadonlyMap<string, ProblemType> = new Map(Object.entries(types))

export const problemTypePath = (slug: string): string => `/problems/${slug}`

export const FaultPlace = z.enum(['body', 'query', 'header'])

/** One thing wrong with the input: where, as a JSON pointer into the body (or query, or headers), and what to do. */
export const Fault = z.object({
  at: z.string().meta({ description: 'JSON pointer; empty: the whole', examples: ['/startsAt'] }),
  in: FaultPlace,
  message: z.string(),
})
export type Fault = z.infer<typeof Fault>

export const ProblemBody = z.object({
  type: z
    .string()
    .meta({ description: 'Path of the description of this type', examples: ['/problems/does-not-fit'] }),
  title: z.string(),
  status: z.int(),
  detail: z.string().optional(),
  retryHelps: z.boolean().meta({ description: 'Whether the same request, sent again, may succeed' }),
  errors: z
    .array(Fault)
    .optional()
    .meta({ description: 'With invalid-input: every fault that was found; with already-there: what is' }),
})

/** Thrown by handlers, answered by the error handler. `extras` are members of its own, ready for the wire. */
export class Problem extends Error {
  override name = 'Problem'
  readonly slug: ProblemSlug
  readonly extras: Readonly<Record<string, unknown>>
  readonly headers: Readonly<Record<string, string>>

  constructor(
    slug: ProblemSlug,
    detail: string,
    extras: Readonly<Record<string, unknown>> = {},
    headers: Readonly<Record<string, string>> = {},
  ) {
    super(detail)
    this.slug = slug
    this.extras = extras
    this.headers = headers
  }

  get status(): number {
    return types[this.slug].status
  }

  /** The problem document as JSON text. */
  text(): string {
    const { title, status, retryHelps } = types[this.slug]
    const type = problemTypePath(this.slug)
    return JSON.stringify({ type, title, status, detail: this.message, retryHelps, ...this.extras })
  }
}

export const bodyFault = (at: string, message: string): Fault => ({ at, in: 'body', message })

/** @param faults  at least one */
export function invalidInput(faults: readonly Fault[]): Problem {
  const [first] = faults
  const more = faults.length > 1 ? ` (and ${faults.length - 1} more)` : ''
  const where = first && first.at !== '' ? `${first.at}: ` : ''
  return new Problem('invalid-input', `${where}${first?.message ?? 'not valid'}${more}`, { errors: faults })
}

/** @throws Problem when there are any */
export function refuseFaults(faults: readonly Fault[]): void {
  if (faults.length > 0) throw invalidInput(faults)
}

export const unknownResource = (what: string, id: string): Problem =>
  new Problem('unknown-resource', `There is no ${what} ${id.slice(0, 80)} here.`)
