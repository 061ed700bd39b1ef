import type { FastifySchema } from 'fastify'
import { describe, expect, test } from 'vitest'
import { buildApp } from '../../src/api/app.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import { inProcessDecider } from '../../src/worker/in-process-decider.ts'
import { addKeeper, KEEPER, keptParts } from './a-keeper.ts'
import { aService, idOf, NOW } from './a-service.ts'
import { aDinner, aGamesNight, aSite } from './a-site.ts'

const notTaken = (at: string) => [{ at, in: 'query', message: 'no such parameter here; leave it out' }]

/** Every route that there is, as it is called; bodies are not looked at, so that only the query can be refused. */
async function everyRoute() {
  const store = await openSqliteStore({ file: ':memory:' })
  const app = buildApp({
    store,
    decider: inProcessDecider(store),
    clock: () => NOW,
    newId: (prefix) => `${prefix}_x`,
    log: false,
    ...keptParts,
  })
  const routes: { readonly method: string; readonly url: string }[] = []
  app.addHook('onRoute', (route) => {
    const { body: _, ...rest } = (route.schema ?? {}) satisfies FastifySchema
    route.schema = rest
    for (const method of [route.method].flat()) if (method !== 'HEAD') routes.push({ method, url: route.url })
  })
  await app.ready()
  await addKeeper(store, NOW)
  const close = async () => {
    await app.close()
    store.close()
  }
  return { app, routes, close }
}

describe('what is written behind the question mark', () => {
  test('is refused by every route where nothing of that name is taken, with its place', async () => {
    const { app, routes, close } = await everyRoute()
    expect(routes.length).toBeGreaterThan(90)
    for (const { method, url } of routes) {
      const name = `${method} ${url}`
      const path = url.replace(':site', 'site_a').replace(':id', 'some_b')
      const answer = await app.inject({
        method:
          method === 'DELETE' ? 'DELETE' : method === 'PATCH' ? 'PATCH' : method === 'POST' ? 'POST' : 'GET',
        url: `${path}?colour=red`,
        headers: { host: 'localhost', ...KEEPER },
      })
      expect(answer.statusCode, name).toBe(422)
      const isPage = String(answer.headers['content-type']).startsWith('text/html')
      if (isPage) expect(answer.body, name).toContain('no such parameter here; leave it out')
      else expect(answer.json().errors, name).toEqual(notTaken('/colour'))
    }
    await close()
  })

  test('never lets a write happen that was to be tried only, where it cannot be tried', async () => {
    const service = await aService()
    const site = await aSite(service)
    const etag = String((await service.get(site.path).expect(200)).headers.etag)
    const before = await service.traces(site.siteId)
    const renamed = await service.patch(`${site.path}?dryRun=true`, { name: 'Elm Row' }).set('If-Match', etag)
    expect([renamed.status, renamed.body.errors]).toEqual([422, notTaken('/dryRun')])
    const erased = await service.delete(`${site.path}/people/${site.personId}/details?dryRun=true`)
    expect([erased.status, erased.body.errors]).toEqual([422, notTaken('/dryRun')])
    expect(await service.traces(site.siteId)).toEqual(before)
  })
})

describe('tried only', () => {
  async function aWeekend() {
    const service = await aService()
    const site = await aSite(service)
    const book = async (body: object) => idOf(await service.post(`${site.path}/bookings`, body))
    const games = await book(aGamesNight(site))
    const dinner = await book(aDinner(site))
    const held = await book({
      ...aDinner(site),
      title: 'Maybe',
      startsAt: '2026-11-29T17:00',
      endsAt: '2026-11-29T20:00',
      hold: { expiresAt: '2026-11-25T12:00' },
    })
    return { service, site, games, dinner, held }
  }

  test('confirming, cancelling and clearing later say what they would come to, and write nothing', async () => {
    const { service, site, games, dinner, held } = await aWeekend()
    const at = (id: string) => `${site.path}/bookings/${id}`
    const before = await service.traces(site.siteId)
    const confirmed = await service.post(`${at(held)}/confirm?dryRun=true`, {}).expect(200)
    const cancelled = await service.delete(`${at(dinner)}?dryRun=true`).expect(200)
    const later = await service
      .post(`${at(games)}/clear-later?dryRun=true`, { clearAt: '2026-11-28T16:30' })
      .expect(200)
    for (const answer of [confirmed, cancelled, later]) expect(Object.keys(answer.body)).toEqual(['decision'])
    expect([confirmed, cancelled, later].map(({ body }) => body.decision.verdict)).toEqual([
      'fits',
      'fits',
      'does-not-fit',
    ])
    expect(await service.traces(site.siteId)).toEqual(before)
  })

  test('so do linking and undoing a link', async () => {
    const { service, site, games, dinner } = await aWeekend()
    const before = await service.traces(site.siteId)
    const body = { bookingIds: [games, dinner] }
    const linked = await service.post(`${site.path}/links?dryRun=true`, body).expect(200)
    expect(Object.keys(linked.body)).toEqual(['decision'])
    expect(await service.traces(site.siteId)).toEqual(before)
    const linkId = idOf(await service.post(`${site.path}/links`, body))
    const between = await service.traces(site.siteId)
    const undone = await service.delete(`${site.path}/links/${linkId}?dryRun=true`).expect(200)
    expect(Object.keys(undone.body)).toEqual(['decision'])
    expect(await service.traces(site.siteId)).toEqual(between)
  })

  test('a request with a key is not remembered: the same key then does the real thing', async () => {
    const { service, site, held } = await aWeekend()
    const path = `${site.path}/bookings/${held}/confirm`
    await service.post(`${path}?dryRun=true`, {}).set('Idempotency-Key', 'k1').expect(200)
    const real = await service.post(path, {}).set('Idempotency-Key', 'k1').expect(200)
    expect(real.body.bookings.map(({ id }: { id: string }) => id)).toEqual([held])
    expect(real.headers['idempotent-replayed']).toBeUndefined()
  })
})
