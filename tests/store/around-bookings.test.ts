/** What is loaded with a window lies around its bookings as well: before doors their crew, and until clear what closes. */
import { describe, expect, test } from 'vitest'
import { SiteId } from '../../src/domain/ids.ts'
import { instantFromLocal } from '../../src/scheduler/timeline/wall-time.ts'
import { aService, NOW, type Service } from '../api/a-service.ts'
import { type ASite, aDinner, aGamesNight, aSite } from '../api/a-site.ts'

const at = (local: string) => instantFromLocal('America/Chicago', local).instant

async function loaded(service: Service, { siteId }: ASite, fromLocal: string, toLocal: string) {
  const window = { fromAt: at(fromLocal), toAt: at(toLocal) }
  const snapshot = await service.store.load(SiteId.parse(siteId), window, NOW)
  if (!snapshot) throw new Error('the site is gone')
  return snapshot
}

describe('with a window is loaded', () => {
  test('the turn of an event whose crew is at work in it, though two bookings come before that turn can begin', async () => {
    const service = await aService()
    const site = await aSite(service)
    const book = async (body: object) => {
      const { body: answer } = await service.post(`${site.path}/bookings`, body).expect(201)
      return String(answer.booking.turnId)
    }
    const games = aGamesNight(site)
    await book({ ...games, startsAt: '2026-11-26T19:00', endsAt: '2026-11-26T20:00' })
    await book({ ...games, startsAt: '2026-11-27T21:30', endsAt: '2026-11-27T22:30' })
    const crewDemands = [{ what: 'cooks', fromAt: '2026-11-26T17:00', toAt: '2026-11-26T17:30', hands: 1 }]
    const turnId = await book({ ...aDinner(site), crewDemands })
    const { turns } = await loaded(service, site, '2026-11-26T17:00', '2026-11-26T17:30')
    expect(turns.map(({ id }) => id)).toContain(turnId)
  })

  test('what closes while the guests of the next booking are in, days after its doors', async () => {
    const service = await aService()
    const site = await aSite(service)
    const days = { startsAt: '2026-12-01T10:00', endsAt: '2026-12-04T18:00' }
    await service.post(`${site.path}/bookings`, { ...aGamesNight(site), ...days }).expect(201)
    const closure = { sectionIds: [site.southId], reason: 'Water' }
    const times = { fromAt: '2026-12-03T12:00', toAt: '2026-12-03T14:00' }
    await service.post(`${site.path}/closures`, { ...closure, ...times }).expect(201)
    const { closures } = await loaded(service, site, '2026-11-28T09:00', '2026-11-28T12:00')
    expect(closures.map(({ reason }) => reason)).toEqual(['Water'])
  })
})
