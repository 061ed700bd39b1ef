/** What a turn says of its pieces, for arrows on a floor plan. */
import { expect, test } from 'vitest'
import { aService } from './a-service.ts'
import { aDinner, aSite } from './a-site.ts'

test('a turn says piece by piece where each comes from', async () => {
  const service = await aService()
  const site = await aSite(service)
  const { body: layout } = await service
    .post(`${site.path}/layouts`, {
      roomId: site.hallId,
      name: 'Panel',
      kind: 'meeting',
      seats: 2,
      furnishings: [{ furnishingId: site.chairId, count: 2 }],
      placements: [
        { furnishingId: site.chairId, xMetres: 4, yMetres: 2 },
        { furnishingId: site.chairId, xMetres: 2, yMetres: 2, rotationDegrees: 90 },
      ],
    })
    .expect(201)
  const { body } = await service
    .post(`${site.path}/bookings`, { ...aDinner(site), layoutId: layout.id, headcount: 2 })
    .expect(201)
  const turn = (await service.get(`${site.path}/turns/${body.booking.turnId}`).expect(200)).body
  const fromStore = { kind: 'store', storagePlaceId: expect.stringMatching(/^storage_/) }
  expect(turn.moves).toEqual([
    {
      furnishingId: site.chairId,
      from: fromStore,
      to: { kind: 'place', xMetres: 2, yMetres: 2, rotationDegrees: 90 },
      parkedAt: null,
      metres: expect.any(Number),
    },
    {
      furnishingId: site.chairId,
      from: fromStore,
      to: { kind: 'place', xMetres: 4, yMetres: 2, rotationDegrees: 0 },
      parkedAt: null,
      metres: expect.any(Number),
    },
  ])
})
