/** What is asked for one day leaves the turns of other days alone, however rooms that share a section hang together. */
import { expect, test } from 'vitest'
import { aService, idOf } from '../api/a-service.ts'
import { aSite } from '../api/a-site.ts'

test('a turn days later, between two bookings of a part of the room, still follows the booking before it', async () => {
  const service = await aService()
  const site = await aSite(service)
  const meetingId = idOf(
    await service.post(`${site.path}/layouts`, {
      roomId: site.southRoomId,
      name: 'Circle',
      kind: 'meeting',
      seats: 10,
      furnishings: [{ furnishingId: site.chairId, count: 10 }],
    }),
  )
  const book = async (room: 'whole' | 'south', startsAt: string, endsAt: string) => {
    const where =
      room === 'whole'
        ? { roomId: site.hallId, layoutId: site.gamesId }
        : { roomId: site.southRoomId, layoutId: meetingId }
    return idOf(
      await service.post(`${site.path}/bookings`, {
        title: 'Meeting',
        headcount: 8,
        ...where,
        startsAt,
        endsAt,
      }),
    )
  }
  await book('south', '2026-12-04T16:00', '2026-12-04T17:00')
  const before = await book('south', '2026-12-05T09:00', '2026-12-05T10:00')
  const between = await book('south', '2026-12-05T12:00', '2026-12-05T13:00')
  // Both halves: the first that comes in the north half, and not the first in the south half.
  await book('whole', '2026-12-05T17:00', '2026-12-05T18:00')
  const turnOf = async (id: string) => {
    const { body } = await service.get(`${site.path}/bookings/${id}`)
    return (await service.get(`${site.path}/turns/${body.turnId}`)).body
  }
  const then = await turnOf(between)
  expect(then.predecessorBookingIds).toEqual([before])

  await book('whole', '2026-12-04T10:00', '2026-12-04T11:00')
  expect(await turnOf(between)).toEqual(then)
})
