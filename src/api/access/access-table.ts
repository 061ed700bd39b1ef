/**
 * Who may use which route: this is what is enforced, and what docs/access.md says. A route without an entry does not start.
 */
import type { Role } from '../../domain/accounts/role.ts'

/** `keepers`: those who keep the whole installation. Roles are those in the site that the route names. */
export type Access = 'anyone' | 'signed-in' | 'keepers' | readonly Role[]

const administrators: Access = ['administrator']
const coordinators: Access = ['coordinator', 'administrator']
const leads: Access = ['crew-lead', 'coordinator', 'administrator']
const crew: Access = ['crew', 'crew-lead', 'coordinator', 'administrator']
const everybody: Access = ['requester', 'crew', 'crew-lead', 'coordinator', 'administrator']
const askers: Access = ['requester', 'coordinator', 'administrator']

const SITE = '/v1/sites/:site'

/** A part of the set-up: who reads it, and who changes it. */
const part = (path: string, reads: Access, writes: Access): Record<string, Access> => ({
  [`GET ${SITE}/${path}`]: reads,
  [`POST ${SITE}/${path}`]: writes,
  [`GET ${SITE}/${path}/:id`]: reads,
  [`PATCH ${SITE}/${path}/:id`]: writes,
  [`DELETE ${SITE}/${path}/:id`]: writes,
})

/** A part of which every change is a new version. */
const versions = (path: string, reads: Access, writes: Access): Record<string, Access> => ({
  [`GET ${SITE}/${path}`]: reads,
  [`POST ${SITE}/${path}`]: writes,
  [`GET ${SITE}/${path}/:id`]: reads,
})

export const accessTable: Readonly<Record<string, Access>> = {
  'GET /healthz': 'anyone',
  'GET /readyz': 'anyone',
  'GET /openapi.json': 'anyone',
  'GET /problems': 'anyone',
  'GET /problems/:slug': 'anyone',
  'GET /schemas/site-document.json': 'anyone',
  'GET /style.css': 'anyone',

  'GET /sign-in': 'anyone',
  'GET /set-up': 'anyone',
  'GET /invitation': 'anyone',
  'GET /new-password': 'anyone',
  'GET /forms.js': 'anyone',
  'POST /v1/session': 'anyone',
  'POST /v1/sign-in-links': 'anyone',
  'POST /v1/password-links': 'anyone',
  'POST /v1/passwords': 'anyone',
  'POST /v1/first-account': 'anyone',
  'POST /v1/accounts': 'anyone',

  'GET /v1/session': 'signed-in',
  'DELETE /v1/session': 'signed-in',
  'DELETE /v1/sessions': 'signed-in',
  'GET /v1/account': 'signed-in',
  'PATCH /v1/account': 'signed-in',
  'DELETE /v1/account': 'signed-in',
  'POST /v1/memberships': 'signed-in',

  'GET /': 'signed-in',
  'GET /turns/:id': 'signed-in',
  'GET /v1/events': 'signed-in',
  'GET /v1/sites': 'signed-in',
  'POST /v1/sites': 'keepers',
  'POST /v1/sites/import': 'keepers',
  [`GET ${SITE}`]: everybody,
  [`PATCH ${SITE}`]: administrators,
  [`GET ${SITE}/export`]: administrators,
  [`GET ${SITE}/check`]: coordinators,
  [`GET ${SITE}/audit`]: coordinators,

  ...part('sections', everybody, administrators),
  ...part('exits', everybody, administrators),
  ...part('passages', everybody, administrators),
  ...part('rooms', everybody, administrators),
  ...part('storage-places', everybody, administrators),
  ...part('furnishings', everybody, administrators),
  ...part('tools', everybody, administrators),
  ...part('equipment', everybody, administrators),
  ...part('layouts', everybody, administrators),
  ...part('closures', everybody, coordinators),
  ...part('people', coordinators, administrators),
  [`DELETE ${SITE}/people/:id/details`]: administrators,
  ...part('shifts', crew, coordinators),
  ...part('stock-changes', crew, coordinators),
  ...part('observations', crew, leads),
  ...versions('rate-sets', leads, administrators),
  [`GET ${SITE}/rate-sets/in-force`]: leads,
  ...versions('policies', leads, administrators),
  [`GET ${SITE}/layouts/:id/advice`]: everybody,

  [`GET ${SITE}/bookings`]: everybody,
  [`POST ${SITE}/bookings`]: askers,
  [`GET ${SITE}/bookings/:id`]: everybody,
  [`PATCH ${SITE}/bookings/:id`]: askers,
  [`DELETE ${SITE}/bookings/:id`]: askers,
  [`POST ${SITE}/bookings/:id/confirm`]: coordinators,
  [`POST ${SITE}/bookings/:id/clear-later`]: leads,
  [`GET ${SITE}/bookings/:id/decision`]: askers,
  [`POST ${SITE}/links`]: coordinators,
  [`GET ${SITE}/links/:id`]: coordinators,
  [`DELETE ${SITE}/links/:id`]: coordinators,
  [`GET ${SITE}/rooms/:room/timeline`]: everybody,

  [`GET ${SITE}/turns`]: crew,
  [`GET ${SITE}/turns/:id`]: crew,
  [`GET ${SITE}/turns/:id/hands-curve`]: leads,
  [`GET ${SITE}/turns/:id/what-would-help`]: leads,
  [`POST ${SITE}/turns/:id/replan`]: leads,
  [`POST ${SITE}/network`]: leads,
  [`GET ${SITE}/warnings`]: leads,

  [`GET ${SITE}/members`]: administrators,
  [`PATCH ${SITE}/members/:id`]: administrators,
  [`DELETE ${SITE}/members/:id`]: administrators,
  [`GET ${SITE}/invitations`]: administrators,
  [`POST ${SITE}/invitations`]: administrators,
  [`DELETE ${SITE}/invitations/:id`]: administrators,
  [`GET ${SITE}/tokens`]: administrators,
  [`POST ${SITE}/tokens`]: administrators,
  [`DELETE ${SITE}/tokens/:id`]: administrators,
}
