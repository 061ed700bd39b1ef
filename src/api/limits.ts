/** How much one address may ask for; common practice, no source. */
import rateLimit from '@fastify/rate-limit'
import { Problem } from './problems.ts'
import type { Api } from './zod-requests.ts'

export interface Limits {
  /** Requests in a minute from one address. */
  readonly max: number
  /** Of what signs in or tries to. */
  readonly signIn: { readonly max: number; readonly timeWindow: number }
}

const MINUTE_MILLISECONDS = 60_000

export const limitsOf = (requestsPerMinute: number, signInsPerMinute: number): Limits => ({
  max: requestsPerMinute,
  signIn: { max: signInsPerMinute, timeWindow: MINUTE_MILLISECONDS },
})

export const SIGN_INS_PER_MINUTE = 30

export function limitRequests(api: Api, { max }: Limits): void {
  api.register(rateLimit, {
    max,
    timeWindow: MINUTE_MILLISECONDS,
    addHeadersOnExceeding: none,
    addHeaders: none,
    errorResponseBuilder: (_request, { ttl }) => {
      const seconds = Math.max(1, Math.ceil(ttl / 1000))
      return new Problem(
        'too-many-requests',
        `More requests came from this address than are taken in a minute. Wait ${seconds} s.`,
        {},
        { 'retry-after': String(seconds) },
      )
    },
  })
}

/** Only whoever is stopped is told, by Retry-After. */
const none = {
  'x-ratelimit-limit': false,
  'x-ratelimit-remaining': false,
  'x-ratelimit-reset': false,
} as const
