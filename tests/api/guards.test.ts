import request from 'supertest'
import { describe, expect, test } from 'vitest'
import { problemTypes } from '../../src/api/problems.ts'
import { QueueFull, SiteQueue } from '../../src/api/site-queue.ts'
import { SiteId } from '../../src/domain/ids.ts'
import { DeciderBusy } from '../../src/worker/decider.ts'
import { inProcessDecider } from '../../src/worker/in-process-decider.ts'
import { KEEPER, keeperCalled } from './a-keeper.ts'
import { aService } from './a-service.ts'
import { aDinner, aSite } from './a-site.ts'

describe('the service answers this computer only', () => {
  test('a Host that is not this computer is refused on every address, also those that are not there', async () => {
    const { app } = await aService()
    for (const host of [
      'hall.example',
      'localhost.hall.example',
      '192.0.2.7:8080',
      '127.0.0.1@hall.example',
      '',
    ]) {
      for (const path of ['/v1/sites', '/', '/nowhere', '/healthz']) {
        const answer = await request(app.server).get(path).set('Host', host)
        expect(answer.status, `${host} ${path}`).toBe(421)
        expect(answer.body.type).toBe('/problems/host-not-allowed')
      }
    }
    for (const host of ['localhost', 'localhost:8080', '127.0.0.1:3000', '[::1]:8080', 'LOCALHOST']) {
      await request(app.server).get('/v1/sites').set('Host', host).set(KEEPER).expect(200)
    }
  })

  test('a page of another origin is refused, one of this computer is not', async () => {
    const service = await aService()
    const body = { name: 'Alder Row', zone: 'Europe/London' }
    for (const origin of ['https://hall.example', 'http://localhost.hall.example', 'null', 'file://']) {
      const answer = await service.post('/v1/sites', body).set('Origin', origin).expect(403)
      expect(answer.body.type).toBe('/problems/origin-not-allowed')
    }
    expect((await service.get('/v1/sites')).body.items).toEqual([])
    await service.post('/v1/sites', body).set('Origin', 'http://localhost:8080').expect(201)
    await service.post('/v1/sites', body).set('Origin', 'http://[::1]:8080').expect(201)
  })

  test('every answer forbids scripts and guessing at types', async () => {
    const service = await aService()
    for (const path of ['/', '/v1/sites', '/nowhere', '/style.css', '/problems/busy']) {
      const { headers } = await service.get(path)
      expect(headers['x-content-type-options'], path).toBe('nosniff')
      expect(headers['content-security-policy'], path).toContain("default-src 'none'")
      expect(headers['content-security-policy'], path).not.toContain('unsafe')
    }
  })
})

describe('every write carries an actor', () => {
  test('whose token it is stands in the audit', async () => {
    const service = await aService()
    const site = await aSite(service)
    await service.post(`${site.path}/bookings`, aDinner(site)).set(keeperCalled('actor_ada')).expect(201)
    const { items } = (await service.get(`${site.path}/audit?limit=200`)).body
    expect(items[0].actorId).toBe('actor_local')
    expect(items.at(-1)).toMatchObject({ action: 'book', actorId: 'actor_ada' })
  })

  test('whoever has not signed in is told so, and a token that does not count is none', async () => {
    const { app } = await aService()
    const answer = await request(app.server).get('/v1/sites').set('Host', 'localhost').expect(401)
    expect(answer.body.type).toBe('/problems/not-signed-in')
    expect(answer.headers['www-authenticate']).toBe('Bearer')
    for (const authorization of [
      'Bearer nonsense',
      `Bearer turnwright_token_${'x'.repeat(43)}`,
      'Basic YTpi',
    ]) {
      const refused = await request(app.server).get('/v1/sites').set({ authorization }).expect(401)
      expect(refused.body.type, authorization).toBe('/problems/bad-token')
    }
  })
})

describe('health', () => {
  test('it is alive, and ready when database and workers are', async () => {
    const service = await aService()
    expect((await service.get('/healthz').expect(200)).body).toEqual({ alive: true })
    expect((await service.get('/readyz').expect(200)).body).toEqual({
      ready: true,
      database: true,
      workers: true,
    })
  })

  test('it is alive but not ready while the workers are down', async () => {
    const service = await aService({
      decider: (store) => ({ ...inProcessDecider(store), isReady: () => false }),
    })
    await service.get('/healthz').expect(200)
    expect((await service.get('/readyz').expect(503)).body).toEqual({
      ready: false,
      database: true,
      workers: false,
    })
  })
})

describe('when too much is asked at once', () => {
  test('a full decider is answered with 503 and when to come back', async () => {
    const decide = () => Promise.reject(new DeciderBusy('full'))
    const service = await aService({ decider: (store) => ({ ...inProcessDecider(store), decide }) })
    const site = await aSite(service, { hands: 0 })
    const answer = await service.post(`${site.path}/bookings`, aDinner(site)).expect(503)
    expect(answer.headers['retry-after']).toBe('1')
    expect(answer.body).toMatchObject({ type: '/problems/busy', retryHelps: true })
    await service.get('/healthz').expect(200)
  })

  test('a bug is answered without a word of what went wrong inside', async () => {
    const decide = () => Promise.reject(new Error('SELECT secret FROM inside'))
    const service = await aService({ decider: (store) => ({ ...inProcessDecider(store), decide }) })
    const site = await aSite(service, { hands: 0 })
    const answer = await service.post(`${site.path}/bookings`, aDinner(site)).expect(500)
    expect(answer.body.type).toBe('/problems/internal')
    expect(answer.text).not.toContain('SELECT')
    expect(answer.text).not.toContain('.ts')
  })

  test('writers of one site go one after another, those of two sites side by side, and a full line turns away', async () => {
    const queue = new SiteQueue(2)
    const [here, there] = [SiteId.parse('site_here'), SiteId.parse('site_there')]
    const order: string[] = []
    const gates = new Map<string, () => void>()
    const work = (name: string) => async () => {
      order.push(`${name} begins`)
      await new Promise<void>((resolve) => gates.set(name, resolve))
      order.push(`${name} ends`)
    }
    const first = queue.run(here, work('first'))
    const second = queue.run(here, work('second'))
    await expect(queue.run(here, work('third'))).rejects.toBeInstanceOf(QueueFull)
    const other = queue.run(there, work('other'))
    await Promise.resolve()
    gates.get('other')?.()
    await other
    gates.get('first')?.()
    await first
    await Promise.resolve()
    gates.get('second')?.()
    await second
    expect(order).toEqual([
      'first begins',
      'other begins',
      'other ends',
      'first ends',
      'second begins',
      'second ends',
    ])
    await expect(queue.run(here, () => Promise.reject(new Error('no')))).rejects.toThrow('no')
    expect(await queue.run(here, async () => 'goes on')).toBe('goes on')
  })
})

describe('types of problems', () => {
  test('each has an address that says what it means and whether to try again', async () => {
    const service = await aService()
    const { items } = (await service.get('/problems').expect(200)).body
    expect(items.map(({ type }: { type: string }) => type)).toEqual(
      [...problemTypes.keys()].map((slug) => `/problems/${slug}`),
    )
    for (const item of items) {
      expect((await service.get(item.type).expect(200)).body).toEqual(item)
      expect(item.meaning.length).toBeGreaterThan(20)
    }
    await service.get('/problems/none').expect(404)
  })

  test('each one that the source can answer is in the list, and each in the list can be answered', async () => {
    const { readdirSync, readFileSync } = await import('node:fs')
    const folder = new URL('../../src/api/', import.meta.url)
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
      (name) => name.endsWith('.ts') && !name.endsWith('/problems.ts'),
    )
    const source = files.map((name) => readFileSync(new URL(name, folder), 'utf8')).join('\n')
    const made = [...source.matchAll(/new Problem\(\s*'([a-z-]+)'|\['([a-z-]+)', '[A-Z]/g)].map(
      ([, a, b]) => a ?? b,
    )
    for (const slug of made) expect([...problemTypes.keys()]).toContain(slug)
    for (const slug of problemTypes.keys()) expect(source, slug).toContain(`'${slug}'`)
  })
})
