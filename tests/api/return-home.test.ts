/** A room that nobody needs for a while is put back, as long as that is so: through the service, with what is stored. */
import { expect, test } from 'vitest'
import { aService } from './a-service.ts'
import { aDinner, aSite } from './a-site.ts'

test('a room that somebody wants sooner is not put back, and is put back after all when they cancel', async () => {
  const service = await aService()
  const site = await aSite(service)
  await service
    .patch(`${site.path}/rooms/${site.hallId}`, { homeLayoutId: site.gamesId })
    .set('If-Match', '"1"')
  await service.post(`${site.path}/policies`, { returnHomeAfterSeconds: 86_400 }).expect(201)
  const lunch = { ...aDinner(site), startsAt: '2026-11-27T12:00', endsAt: '2026-11-27T14:00' }
  const first = (await service.post(`${site.path}/bookings`, lunch).expect(201)).body
  const { turnId } = first.decision.after
  const home = async () => (await service.get(`${site.path}/turns/${turnId}`)).body
  expect(await home()).toMatchObject({ purpose: 'return-home', status: 'ready', toLayoutId: site.gamesId })

  const next = { ...aDinner(site), startsAt: '2026-11-28T12:00', endsAt: '2026-11-28T14:00' }
  const second = (await service.post(`${site.path}/bookings`, next).expect(201)).body
  expect(second.decision.before.fromLayoutIds).toEqual([site.banquetId])
  expect(await home()).toMatchObject({ status: 'dropped', tasks: [] })

  await service.delete(`${site.path}/bookings/${second.booking.id}`).expect(200)
  expect(await home()).toMatchObject({ status: 'ready' })
  expect((await home()).tasks.length).toBeGreaterThan(5)
})
