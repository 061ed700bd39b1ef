import { z } from 'zod'
import { OpeningHours, Room } from '../../domain/room.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { setupAddRoute, setupReadRoutes } from '../setup-routes.ts'
import type { Api } from '../zod-requests.ts'
import { roomFaults } from './room-faults.ts'

const { name, sectionIds, occupantLimitPosted, homeLayoutId } = Room.shape

const RoomBody = z.strictObject({
  name,
  sectionIds,
  occupantLimitPosted: occupantLimitPosted.default(null),
  homeLayoutId: homeLayoutId.default(null),
  openingHours: z.array(z.strictObject(OpeningHours.shape)).min(1).max(50).nullable().default(null),
})

export function roomRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  const reading = { segment: 'rooms', kind: 'room', noun: 'room', answerSchema: Room } as const
  setupReadRoutes(api, context, reading)
  setupAddRoute(api, context, once, {
    ...reading,
    prefix: 'room',
    body: RoomBody,
    rowFrom: (body, id, { site }) => Room.parse({ ...body, id, siteId: site.id }),
    addition: (row) => ({ kind: 'room', row }),
    faults: roomFaults,
  })
}
