import { describe, expect, test } from 'vitest'
import { Person } from '../../src/domain/person.ts'
import type { Commit, Store } from '../../src/store/store.ts'
import { keeperCalled } from './a-keeper.ts'
import { aService } from './a-service.ts'
import { aDinner, aSite } from './a-site.ts'

describe('a POST sent again with the same Idempotency-Key', () => {
  test('gets the first answer again, word for word, and has no effect', async () => {
    const service = await aService()
    const site = await aSite(service)
    const send = () => service.post(`${site.path}/bookings`, aDinner(site)).set('Idempotency-Key', 'supper-1')
    const first = await send().expect(201)
    expect(first.headers).not.toHaveProperty('idempotent-replayed')
    const before = await service.traces(site.siteId)
    const second = await send().expect(201)
    expect(second.text).toBe(first.text)
    expect(second.headers).toMatchObject({
      'idempotent-replayed': 'true',
      location: first.headers.location,
      etag: first.headers.etag,
      'content-type': first.headers['content-type'],
    })
    expect(await service.traces(site.siteId)).toEqual(before)
  })

  test('gets a refusal again too, even when the room has become free since', async () => {
    const service = await aService()
    const site = await aSite(service)
    const taken = (await service.post(`${site.path}/bookings`, aDinner(site))).body.booking
    const send = () => service.post(`${site.path}/bookings`, aDinner(site)).set('Idempotency-Key', 'supper-2')
    const first = await send().expect(409)
    expect(first.body.decision.reasons[0].bookingId).toBe(taken.id)
    await service.delete(`${site.path}/bookings/${taken.id}`).expect(200)
    const second = await send().expect(409)
    expect(second.text).toBe(first.text)
    expect(second.headers['content-type']).toContain('application/problem+json')
    expect(second.headers['idempotent-replayed']).toBe('true')
    await service.post(`${site.path}/bookings`, aDinner(site)).set('Idempotency-Key', 'supper-3').expect(201)
  })

  test('is refused when the body is another one', async () => {
    const service = await aService()
    const site = await aSite(service)
    const send = (title: string) =>
      service.post(`${site.path}/bookings`, { ...aDinner(site), title }).set('Idempotency-Key', 'supper-4')
    await send('Supper').expect(201)
    const before = await service.traces(site.siteId)
    const other = await send('Dinner').expect(422)
    expect(other.body.type).toBe('/problems/idempotency-key-reused')
    expect(await service.traces(site.siteId)).toEqual(before)
  })

  test('counts for one actor and one route only', async () => {
    const service = await aService()
    const body = { name: 'Alder Row', zone: 'Europe/London' }
    const send = (actor: 'actor_ada' | 'actor_ben') =>
      service.post('/v1/sites', body).set('Idempotency-Key', 'same').set(keeperCalled(actor)).expect(201)
    const [ada, ben, again] = [await send('actor_ada'), await send('actor_ben'), await send('actor_ada')]
    expect(ben.body.id).not.toBe(ada.body.id)
    expect(again.body.id).toBe(ada.body.id)
    const section = { name: 'Yard', areaSquareMetres: 60, floorKind: 'concrete' }
    const add = (siteId: string) =>
      service.post(`/v1/sites/${siteId}/sections`, section).set('Idempotency-Key', 'same').expect(201)
    const made = await add(ada.body.id)
    expect((await add(ben.body.id)).body.id).not.toBe(made.body.id)
    expect((await add(ada.body.id)).body.id).toBe(made.body.id)
  })

  test('sent many times at once has one effect, and all get its answer', async () => {
    const service = await aService()
    const site = await aSite(service)
    const before = await service.traces(site.siteId)
    const send = () => service.post(`${site.path}/bookings`, aDinner(site)).set('Idempotency-Key', 'supper-5')
    const answers = await Promise.all([send(), send(), send(), send(), send()])
    expect(answers.map(({ status }) => status)).toEqual([201, 201, 201, 201, 201])
    expect(new Set(answers.map(({ text }) => text)).size).toBe(1)
    expect(answers.filter(({ headers }) => headers['idempotent-replayed'] === undefined)).toHaveLength(1)
    expect((await service.traces(site.siteId)).audit).toBe(before.audit + 1)
  })

  test('may be sent again as it was after a fault of the input was corrected', async () => {
    const service = await aService()
    const site = await aSite(service)
    const send = (headcount: number) =>
      service
        .post(`${site.path}/bookings`, { ...aDinner(site), headcount })
        .set('Idempotency-Key', 'supper-6')
    await send(0).expect(422)
    await send(50).expect(201)
  })

  test('is a dry run as often as it is asked: nothing is kept of those', async () => {
    const service = await aService()
    const site = await aSite(service)
    const path = `${site.path}/bookings`
    const send = (to: string) => service.post(to, aDinner(site)).set('Idempotency-Key', 'supper-7')
    await send(`${path}?dryRun=true`).expect(200)
    const second = await send(`${path}?dryRun=true`).expect(200)
    expect(second.headers).not.toHaveProperty('idempotent-replayed')
    await send(path).expect(201)
    const dry = await send(`${path}?dryRun=true`).expect(200)
    expect(dry.body.decision.verdict).toBe('does-not-fit')
  })

  test('with a key of spaces, or of 201 characters, is refused', async () => {
    const service = await aService()
    for (const key of ['two words', 'x'.repeat(201)]) {
      const body = { name: 'Alder Row', zone: 'Europe/London' }
      const answer = await service.post('/v1/sites', body).set('Idempotency-Key', key).expect(422)
      expect(answer.body.errors[0]).toMatchObject({ at: '/idempotency-key', in: 'header' })
    }
  })
})

describe('when somebody else is faster', () => {
  /** The real store; before each of the first commits of a booking, somebody else adds a person. */
  const outrun = (times: number) => {
    let left = times
    return (store: Store): Store => ({
      ...store,
      commit: async (commit: Commit) => {
        if (commit.action === 'book' && left > 0) {
          const { siteId, actorId, at } = commit
          const row = Person.parse({ id: `person_newcomer-${left}`, siteId, adult: true, skills: [] })
          const setup = [{ kind: 'person', before: null, after: row, retire: false } as const]
          left -= 1
          await store.commit({
            siteId,
            actorId,
            at,
            action: 'add-person',
            reason: null,
            planningVersionExpected: null,
            setup,
          })
        }
        return store.commit(commit)
      },
    })
  }

  test('it is decided anew, and then written', async () => {
    const service = await aService({ store: outrun(2) })
    const site = await aSite(service)
    await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)
    expect((await service.get(`${site.path}/bookings`)).body.items).toHaveLength(1)
  })

  test('each time, the sender is asked to try again, and nothing of theirs is written', async () => {
    const service = await aService({ store: outrun(5) })
    const site = await aSite(service)
    const send = () => service.post(`${site.path}/bookings`, aDinner(site)).set('Idempotency-Key', 'supper-8')
    const answer = await send().expect(409)
    expect(answer.body).toMatchObject({ type: '/problems/conflict', retryHelps: true })
    expect((await service.get(`${site.path}/bookings`)).body.items).toEqual([])
    await send().expect(201)
  })
})
