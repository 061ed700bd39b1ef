import { describe, expect, test } from 'vitest'
import { keeperCalled } from './a-keeper.ts'
import { aService, idOf } from './a-service.ts'
import { addTheRest, aSite, aWeeklyShift } from './a-site.ts'

const segments = [
  'sections',
  'exits',
  'passages',
  'tools',
  'stock-changes',
  'observations',
  'rate-sets',
  'rooms',
  'storage-places',
  'furnishings',
  'equipment',
  'layouts',
  'people',
  'policies',
  'shifts',
  'closures',
]

describe('a hall is set up through the API', () => {
  test('a new site comes with a policy to begin with', async () => {
    const service = await aService()
    const made = await service.post('/v1/sites', { name: 'Alder Row', zone: 'Europe/London' }).expect(201)
    const path = `/v1/sites/${made.body.id}`
    expect(made.headers.location).toBe(path)
    expect((await service.get(path)).body).toEqual({
      id: made.body.id,
      name: 'Alder Row',
      zone: 'Europe/London',
      units: 'metric',
      codeTables: 'us',
    })
    const policies = (await service.get(`${path}/policies`)).body.items
    expect(policies).toHaveLength(1)
    expect(policies[0].paceFactor).toBe(1.5)
    expect(policies[0].boundaries.banquet).toEqual({
      doorsBeforeStartSeconds: 1800,
      clearAfterEndSeconds: 2700,
    })
    expect((await service.get('/v1/sites')).body.items).toHaveLength(1)
  })

  test('each part that was added can be listed, and read at the address that came with it', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { path } = site
    await addTheRest(service, site)
    for (const segment of segments) {
      const { items } = (await service.get(`${path}/${segment}`).expect(200)).body
      expect(items.length, segment).toBeGreaterThan(0)
      for (const item of items) {
        const read = await service.get(`${path}/${segment}/${item.id}`).expect(200)
        expect(read.body).toEqual(item)
        expect(item).toMatchObject({ version: 1, retiredAt: null })
        expect(read.headers.etag, segment).toBe('"1"')
      }
    }
  })

  test('what is left out of a room, a layout or a device is said in the answer', async () => {
    const service = await aService()
    const { path, hallId, lightsId, southRoomId } = await aSite(service)
    expect((await service.get(`${path}/rooms/${southRoomId}`)).body).toMatchObject({
      occupantLimitPosted: null,
      homeLayoutId: null,
      openingHours: null,
    })
    const layout = { roomId: hallId, name: 'Bare', kind: 'other' }
    const made = await service.post(`${path}/layouts`, layout).expect(201)
    expect(made.body).toMatchObject({ seats: null, furnishings: [], equipment: [] })
    expect((await service.get(`${path}/equipment/${lightsId}`)).body.control.skill).toBeNull()
  })

  test('a person is answered with name and contact, which the audit never holds', async () => {
    const service = await aService()
    const { path, personId } = await aSite(service)
    const person = (await service.get(`${path}/people/${personId}`)).body
    expect(person).toMatchObject({ name: 'Ottoline Reed', email: null, phone: '555 0100', adult: true })
    const audit = await service.get(`${path}/audit?limit=200`).expect(200)
    expect(audit.text).toContain(personId)
    expect(audit.text).not.toContain('Ottoline')
    expect(audit.text).not.toContain('555 0100')
  })

  test('a new policy changes what it names and keeps the rest; the old one is no longer listed', async () => {
    const service = await aService()
    const { path } = await aSite(service)
    const [old] = (await service.get(`${path}/policies`)).body.items
    const made = await service.post(`${path}/policies`, { paceFactor: 1.1 }).expect(201)
    const { decision, ...policy } = made.body
    expect(policy).toEqual({ ...old, id: made.body.id, paceFactor: 1.1 })
    expect(decision).toMatchObject({ verdict: 'fits', reasons: [], affected: [] })
    expect((await service.get(`${path}/policies`)).body.items).toEqual([policy])
    const retired = { ...old, version: 2, retiredAt: '2026-11-23T09:00:00-06:00' }
    expect((await service.get(`${path}/policies/${old.id}`)).body).toEqual(retired)
    const all = (await service.get(`${path}/policies?retired=true`)).body.items
    expect(all).toHaveLength(2)
    expect(all).toEqual(expect.arrayContaining([policy, retired]))
  })

  test('the audit says who added what, and when, in the time of the site', async () => {
    const service = await aService()
    const made = await service.post('/v1/sites', { name: 'Alder Row', zone: 'America/Chicago' })
    const path = `/v1/sites/${made.body.id}`
    const section = { name: 'Yard', areaSquareMetres: 60, floorKind: 'concrete' }
    const id = idOf(await service.post(`${path}/sections`, section).set(keeperCalled('actor_ada')))
    const { items } = (await service.get(`${path}/audit`)).body
    expect(items.map((entry: { action: string }) => entry.action)).toEqual(['add-site', 'add-section'])
    expect(items[1]).toMatchObject({ actorId: 'actor_ada', writtenAt: '2026-11-23T09:00:00-06:00' })
    expect(items[1].hash).toMatch(/^[0-9a-f]{64}$/)
    expect(items[1].previousHash).toBe(items[0].hash)
    expect(items[1].effects).toEqual([expect.objectContaining({ table: 'section', id, before: null })])
  })

  test('a list comes in pages: every row once, in order, and the last page says so', async () => {
    const service = await aService()
    const { path } = await aSite(service)
    const whole = (await service.get(`${path}/rooms`)).body
    expect(whole.nextCursor).toBeNull()
    const seen = []
    let cursor: string | null = null
    do {
      const query: string = cursor === null ? 'limit=2' : `limit=2&cursor=${cursor}`
      const page = (await service.get(`${path}/rooms?${query}`).expect(200)).body
      expect(page.items.length).toBeLessThanOrEqual(2)
      seen.push(...page.items)
      cursor = page.nextCursor
    } while (cursor !== null)
    expect(seen).toEqual(whole.items)
  })

  test('a shift is added by a decision, which comes with it', async () => {
    const service = await aService()
    const { path } = await aSite(service, { hands: 0 })
    const made = await service.post(`${path}/shifts`, aWeeklyShift(6)).expect(201)
    expect(made.body).toMatchObject({
      name: 'Crew',
      crew: { kind: 'hands', hands: 6, skills: [], adults: true },
    })
    expect(made.body.decision).toMatchObject({ verdict: 'fits', reasons: [], affected: [] })
    const once = {
      name: 'Late help',
      crew: { kind: 'hands', hands: 2, adults: false },
      times: { kind: 'once', startsAt: '2026-11-28T15:00', endsAt: '2026-11-28T18:00' },
    }
    const late = await service.post(`${path}/shifts`, once).expect(201)
    expect(late.body.times.startsAt).toBe('2026-11-28T15:00:00-06:00')
  })

  test('what would follow from a write of any part is told without writing it, where that is all that is asked', async () => {
    const service = await aService()
    const { path, hallId } = await aSite(service)
    const audit = async () => (await service.get(`${path}/audit?limit=200`)).body.items.length
    const before = await audit()
    const nothing = {
      verdict: 'fits',
      reasons: [],
      before: null,
      after: null,
      affected: [],
      alternatives: [],
    }
    const shift = await service.post(`${path}/shifts?dryRun=true`, aWeeklyShift(6)).expect(200)
    expect(shift.body).toEqual({ decision: nothing })
    const person = await service.post(`${path}/people?dryRun=true`, { name: 'Ida', adult: true }).expect(200)
    expect(person.body).toEqual({ decision: nothing })
    const room = `${path}/rooms/${hallId}`
    const renamed = await service
      .patch(`${room}?dryRun=true`, { name: 'Hall' })
      .set('If-Match', '*')
      .expect(200)
    expect(renamed.body).toEqual({ decision: nothing })
    const paced = await service.post(`${path}/policies?dryRun=true`, { paceFactor: 1.1 }).expect(200)
    expect(paced.body).toEqual({ decision: nothing })
    expect((await service.get(room)).body.version).toBe(1)
    expect(await audit()).toBe(before)
  })

  test('a dry run finds the same faults as the write', async () => {
    const service = await aService()
    const { path } = await aSite(service)
    const asked = { ...aWeeklyShift(6), name: '' }
    const refused = await service.post(`${path}/shifts`, asked).expect(422)
    expect((await service.post(`${path}/shifts?dryRun=true`, asked).expect(422)).body).toEqual(refused.body)
  })
})
