/**
 * Requests are taken under the names that people reach the service by, and from its own pages only: a page from elsewhere
 * can make a browser send requests (Origin), or point its own name at this address (Host).
 */
import type { Configuration } from '../configuration.ts'
import { Problem } from './problems.ts'

const loopbackHost = /^(localhost|127\.0\.0\.1|\[::1\])(:[0-9]{1,5})?$/i
const loopbackOrigin = /^https?:\/\/(localhost|127\.0\.0\.1|\[::1\])(:[0-9]{1,5})?$/i

/** Whether the request came to this very computer by its own name. */
export const isLoopbackHost = (host: string | undefined): boolean =>
  host !== undefined && loopbackHost.test(host)

/** @throws Problem host-not-allowed, origin-not-allowed */
export function refuseStrangers(
  { publicUrl }: Pick<Configuration, 'publicUrl'>,
  host: string | undefined,
  origin: string | undefined,
): void {
  const own = publicUrl === null ? null : new URL(publicUrl)
  const isOwnHost = own !== null && host?.toLowerCase() === own.host.toLowerCase()
  if (!isOwnHost && !isLoopbackHost(host)) {
    const names = own === null ? '' : `${own.host}, `
    throw new Problem(
      'host-not-allowed',
      `The header Host must be ${names}localhost, 127.0.0.1 or [::1], with any port.`,
    )
  }
  if (origin === undefined || (isOwnHost ? origin === own.origin : loopbackOrigin.test(origin))) return
  throw new Problem('origin-not-allowed', 'The header Origin, when sent, must be a page of this service.')
}
