import { describe, expect, test } from 'vitest'
import { startReport } from '../src/start-report.ts'
import { aService, idOf, NOW } from './api/a-service.ts'
import { aDinner, aGamesNight, aSite } from './api/a-site.ts'

describe('what the service says of itself when it starts', () => {
  test('counts one thing as one', async () => {
    const service = await aService()
    const site = `/v1/sites/${idOf(await service.post('/v1/sites', { name: 'Birch Yard', zone: 'Europe/London' }))}`
    const section = { name: 'Barn', areaSquareMetres: 90, floorKind: 'concrete' }
    const sectionId = idOf(await service.post(`${site}/sections`, section))
    await service.post(`${site}/rooms`, { name: 'Barn', sectionIds: [sectionId] }).expect(201)
    expect(await startReport(service.store, NOW)).toBe(
      'Birch Yard (Europe/London): 1 room, 0 layouts, 0 pieces, 0 devices, 0 shifts\nNo turns in the coming nine days.',
    )
  })

  test('lists the turns of the coming days, and says by how many minutes one is short', async () => {
    const service = await aService()
    const site = await aSite(service)
    await service.post(`${site.path}/bookings`, aGamesNight(site)).expect(201)
    await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)
    const works = { fromAt: '2026-11-27T21:15', toAt: '2026-11-28T16:15', reason: 'works' }
    await service.post(`${site.path}/closures`, { sectionIds: [site.northId], ...works }).expect(201)
    const lines = (await startReport(service.store, NOW)).split('\n')
    expect(lines[0]).toMatch(/^Alder Row \(America\/Chicago\): 3 rooms, 3 layouts, .* 2 devices, 1 shift$/)
    expect(lines.find((line) => line.includes('Games floor → Banquet of 15'))).toMatch(
      / 15 min +\d+ min short .* does not fit$/,
    )
  })
})
