/** Before anything else of a request is looked at: who it is, and whether they may. */
import type { FastifyRequest } from 'fastify'
import { SiteId } from '../../domain/ids.ts'
import { type Actor, roleIn } from '../actor.ts'
import { Problem, unknownResource } from '../problems.ts'
import type { Api } from '../zod-requests.ts'
import { type Access, accessTable } from './access-table.ts'

/** Every route that is added afterwards must have an entry, and every entry a route. */
export function everyRouteHasAccess(api: Api): void {
  const unused = new Set(Object.keys(accessTable))
  api.addHook('onRoute', ({ method, url }) => {
    for (const one of [method].flat()) {
      const route = routeName(one, url)
      if (!(route in accessTable))
        throw new Error(`${route} has no entry in the table of who may use it (access-table.ts)`)
      unused.delete(route)
    }
  })
  api.addHook('onReady', async () => {
    if (unused.size > 0)
      throw new Error(`the table of who may use what names routes there are not: ${[...unused].join(', ')}`)
  })
}

/** What answers to GET answers to HEAD. */
const routeName = (method: string, url: string): string => `${method === 'HEAD' ? 'GET' : method} ${url}`

/** What is for anyone rests on nobody's session: signing in again needs no proof of the one there is. */
export function isForAnyone({ routeOptions: { url, method } }: FastifyRequest): boolean {
  return url !== undefined && accessTable[routeName(String(method), url)] === 'anyone'
}

/**
 * @throws Problem not-signed-in, not-allowed; unknown-resource where the site is not theirs, as if there were none
 */
export function refuseUnlessAllowed(request: FastifyRequest): void {
  const { url, method } = request.routeOptions
  if (url === undefined) return
  const access = accessTable[routeName(String(method), url)]
  if (access === undefined) throw new Error(`${method} ${url} is not in the table of who may use it`)
  const { actor } = request
  if (access === 'anyone') return
  if (actor.kind === 'nobody') throw notSignedIn()
  if (access === 'signed-in') return
  if (access === 'keepers') {
    if (actor.roleEverywhere === 'administrator') return
    throw new Problem('not-allowed', 'Only those who keep the whole installation may do that.')
  }
  refuseUnlessInRole(request, actor, access)
}

function refuseUnlessInRole(request: FastifyRequest, actor: Actor, roles: Exclude<Access, string>): void {
  const { site } = Object(request.params) as { site?: string }
  const siteId = SiteId.safeParse(site)
  const role = siteId.success ? roleIn(actor, siteId.data) : null
  if (role === null) throw unknownResource('site', String(site))
  if (!roles.includes(role))
    throw new Problem('not-allowed', `As ${role} of this site you may not do that; ${rolesText(roles)} may.`)
}

const rolesText = (roles: readonly string[]): string =>
  roles.length === 1 ? `an ${roles[0]}` : `${roles.slice(0, -1).join(', ')} and ${roles.at(-1)}`

const notSignedIn = (): Problem =>
  new Problem(
    'not-signed-in',
    'Sign in, or send a token: Authorization: Bearer …',
    {},
    { 'www-authenticate': 'Bearer' },
  )
