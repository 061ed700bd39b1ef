/**
 * The service answers this computer only, and only its own pages. Listening on loopback is not enough: a page from
 * elsewhere can make a browser here send requests (Origin), or point its own name at 127.0.0.1 (Host).
 */
import { Problem } from './problems.ts'

const loopbackHost = /^(localhost|127\.0\.0\.1|\[::1\])(:[0-9]{1,5})?$/i
const loopbackOrigin = /^https?:\/\/(localhost|127\.0\.0\.1|\[::1\])(:[0-9]{1,5})?$/i

/** @throws Problem host-not-allowed, origin-not-allowed */
export function refuseStrangers(host: string | undefined, origin: string | undefined): void {
  if (host === undefined || !loopbackHost.test(host)) {
    throw new Problem(
      'host-not-allowed',
      'The header Host must be localhost, 127.0.0.1 or [::1], with any port.',
    )
  }
  if (origin !== undefined && !loopbackOrigin.test(origin)) {
    throw new Problem('origin-not-allowed', 'The header Origin, when sent, must be a page of this computer.')
  }
}
