import { z } from 'zod'
import { EquipmentSetting } from '../../domain/equipment.ts'
import { EquipmentId, FurnishingId } from '../../domain/ids.ts'
import { Layout } from '../../domain/layout.ts'
import { PieceCount } from '../../domain/units.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { setupAddRoute, setupReadRoutes } from '../setup-routes.ts'
import type { Api } from '../zod-requests.ts'
import { layoutFaults } from './layout-faults.ts'

const { roomId, name, kind, seats } = Layout.shape

const LayoutBody = z.strictObject({
  roomId,
  name,
  kind,
  seats: seats.default(null),
  furnishings: z
    .array(z.strictObject({ furnishingId: FurnishingId, count: PieceCount }))
    .max(100)
    .default([]),
  equipment: z
    .array(z.strictObject({ equipmentId: EquipmentId, setting: EquipmentSetting }))
    .max(100)
    .default([]),
})

export function layoutRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  const reading = { segment: 'layouts', kind: 'layout', noun: 'layout', answerSchema: Layout } as const
  setupReadRoutes(api, context, reading)
  setupAddRoute(api, context, once, {
    ...reading,
    prefix: 'layout',
    body: LayoutBody,
    rowFrom: (body, id, { site }) => Layout.parse({ ...body, id, siteId: site.id }),
    addition: (row) => ({ kind: 'layout', row }),
    faults: layoutFaults,
  })
}
