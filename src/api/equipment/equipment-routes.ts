import { z } from 'zod'
import { Equipment, LevelControl, StatesControl, Transition } from '../../domain/equipment.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { setupAddRoute, setupReadRoutes } from '../setup-routes.ts'
import type { Api } from '../zod-requests.ts'
import { equipmentFaults } from './equipment-faults.ts'

const { name, sectionIds } = Equipment.shape

const TransitionBody = z.strictObject({
  ...Transition.shape,
  skill: Transition.shape.skill.default(null),
  needsFloorClear: Transition.shape.needsFloorClear.default(false),
})

const EquipmentBody = z.strictObject({
  name,
  sectionIds,
  control: z.discriminatedUnion('kind', [
    z.strictObject({ ...StatesControl.shape, transitions: z.array(TransitionBody).max(400).default([]) }),
    z.strictObject({ ...LevelControl.shape, skill: LevelControl.shape.skill.default(null) }),
  ]),
})

export function equipmentRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  const reading = {
    segment: 'equipment',
    kind: 'equipment',
    noun: 'equipment',
    answerSchema: Equipment,
  } as const
  setupReadRoutes(api, context, reading)
  setupAddRoute(api, context, once, {
    ...reading,
    prefix: 'equipment',
    body: EquipmentBody,
    rowFrom: (body, id, { site }) => Equipment.parse({ ...body, id, siteId: site.id }),
    addition: (row) => ({ kind: 'equipment', row }),
    faults: equipmentFaults,
  })
}
