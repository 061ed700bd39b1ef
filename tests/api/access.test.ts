/** Every route × every role × own site, other site, signed out, over and revoked: what is enforced is what the table says. */
import { readFileSync } from 'node:fs'
import type { InjectOptions } from 'fastify'
import { expect, test } from 'vitest'
import { secretsUnder } from '../../src/accounts/secrets.ts'
import { accessTable } from '../../src/api/access/access-table.ts'
import { AccessToken } from '../../src/domain/accounts/access-token.ts'
import { Role } from '../../src/domain/accounts/role.ts'
import { keptParts } from './a-keeper.ts'
import { aService, NOW, type Service } from './a-service.ts'
import { aSite } from './a-site.ts'
import { accessPage } from './access-page.ts'

const METHODS = { GET: 'GET', POST: 'POST', PATCH: 'PATCH', DELETE: 'DELETE' } as const
type Method = keyof typeof METHODS

const routes = Object.entries(accessTable).map(([route, access]) => {
  const [name = '', url = ''] = route.split(' ')
  const method = Object.keys(METHODS).find((one): one is Method => one === name)
  if (!method) throw new Error(`${route} has no method that is known`)
  return { route, method, url, access }
})

let tokensMade = 0
async function aTokenOf(service: Service, siteId: string, role: Role, wishes: object = {}): Promise<string> {
  const secrets = secretsUnder(keptParts.secretKey)
  const { secret, hash } = secrets.fresh('token')
  const token = AccessToken.parse({
    id: `actor_${role}-${++tokensMade}`,
    siteId,
    role,
    name: role,
    createdBy: 'actor_local',
    createdAt: NOW,
    expiresAt: null,
    lastUsedAt: Date.UTC(2090, 0),
    revokedAt: null,
    ...wishes,
  })
  await service.store.accounts.addToken(token, hash, null)
  return secret
}

test('the page of who may use what says what is enforced, and nothing else', () => {
  // However wide the columns are drawn.
  const plain = (text: string) => text.replace(/ +/g, ' ').replace(/-{2,}/g, '--')
  const page = readFileSync(new URL('../../docs/access.md', import.meta.url), 'utf8')
  expect(plain(page)).toBe(plain(accessPage()))
})

test('every route is for those whom the table names, in their own site only', async () => {
  const service = await aService()
  const [own, other] = [await aSite(service), await aSite(service)]
  const tokens = new Map<Role, string>()
  for (const role of Role.options) tokens.set(role, await aTokenOf(service, own.siteId, role))
  const over = await aTokenOf(service, own.siteId, 'administrator', { expiresAt: NOW })
  const revoked = await aTokenOf(service, own.siteId, 'administrator', { revokedAt: NOW })
  const ask = async (method: Method, url: string, siteId: string, secret: string | null) => {
    const path = url.replace(':site', siteId).replace(/:[a-z]+/g, 'some_b')
    const options: InjectOptions = {
      method,
      url: path,
      headers: { host: 'localhost', ...(secret === null ? {} : { authorization: `Bearer ${secret}` }) },
    }
    if (path === '/v1/events') return null
    const { statusCode, body } = await service.app.inject(options)
    return { status: statusCode, body }
  }
  const type = (answer: { readonly body: string } | null) => {
    const [, slug] = /"type":"\/problems\/([a-z-]+)"/.exec(answer?.body ?? '') ?? []
    return slug ?? null
  }
  let looked = 0
  for (const { route, method, url, access } of routes) {
    if (url === '/v1/events') continue
    const hasSite = url.includes(':site')
    for (const [role, secret] of tokens) {
      const answer = await ask(method, url, own.siteId, secret)
      const isAllowed =
        access === 'anyone' || access === 'signed-in' || (access !== 'keepers' && access.includes(role))
      const name = `${route} as ${role}`
      looked += 1
      expect(type(answer) === 'not-allowed', name).toBe(!isAllowed)
      expect(type(answer), name).not.toBe('not-signed-in')
      if (!hasSite) continue
      const elsewhere = await ask(method, url, other.siteId, secret)
      expect([elsewhere?.status, elsewhere?.body], name).toEqual([
        404,
        expect.stringContaining(`There is no site ${other.siteId} here.`),
      ])
      expect((await ask(method, url, 'site_nowhere', secret))?.body, name).toBe(
        elsewhere?.body.replaceAll(other.siteId, 'site_nowhere'),
      )
    }
    const signedOut = await ask(method, url, own.siteId, null)
    const isPage = url === '/' || url === '/turns/:id'
    if (access === 'anyone') expect(['not-signed-in', 'not-allowed'], route).not.toContain(type(signedOut))
    else if (isPage) expect(signedOut?.status, route).toBe(303)
    else expect(type(signedOut), route).toBe('not-signed-in')
    for (const secret of [over, revoked]) {
      const answer = await ask(method, url, own.siteId, secret)
      expect(answer?.status, route).toBe(401)
    }
  }
  expect(looked).toBeGreaterThan(450)
})

test('the visitor of the demo is told so, and is nobody under another name of this computer', async () => {
  const service = await aService({ demo: true })
  const visitor = await service.app.inject({ url: '/v1/session', headers: { host: 'localhost' } })
  expect(visitor.json()).toMatchObject({
    kind: 'visitor',
    roles: [{ siteId: 'site_harrow-lane', role: 'coordinator' }],
  })
  expect(visitor.headers['x-demo']).toBe('signed in as a visitor: coordinator of the demo site')
  const week = await service.app.inject({ url: '/', headers: { host: 'localhost' } })
  expect(week.body).toContain('You are signed in as a visitor: coordinator of the demo site.')
  const founding = await service.app.inject({
    method: 'POST',
    url: '/v1/sites',
    headers: { host: 'localhost' },
  })
  expect(founding.statusCode).toBe(403)
  const elsewhere = await aService({ demo: true, publicUrl: 'https://hall.example' })
  for (const host of ['hall.example', 'localhost']) {
    const answer = await elsewhere.app.inject({ url: '/v1/session', headers: { host } })
    expect(answer.statusCode, host).toBe(401)
    expect(answer.headers['strict-transport-security']).toBe('max-age=31536000')
  }
})
