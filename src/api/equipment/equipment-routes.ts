import { z } from 'zod'
import { Equipment, LevelControl, StatesControl, Transition } from '../../domain/equipment.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { strictly } from '../setup/body-schemas.ts'
import { setupBodies, storedSchema } from '../setup/setup-resource.ts'
import { setupRoutes } from '../setup/setup-routes.ts'
import type { Api } from '../zod-requests.ts'

const TransitionBody = Transition.extend({
  skill: Transition.shape.skill.default(null),
  needsFloorClear: Transition.shape.needsFloorClear.default(false),
})

const EquipmentBody = strictly(
  Equipment.omit({ id: true, siteId: true }).extend({
    control: z.discriminatedUnion('kind', [
      StatesControl.extend({ transitions: z.array(TransitionBody).max(400).default([]) }),
      LevelControl.extend({ skill: LevelControl.shape.skill.default(null) }),
    ]),
  }),
)

export const equipmentRoutes = (api: Api, context: ApiContext, once: AnswerOnce): void =>
  setupRoutes(api, context, once, {
    segment: 'equipment',
    kind: 'equipment',
    noun: 'equipment',
    prefix: 'equipment',
    answerSchema: storedSchema(Equipment, 'Equipment'),
    bodies: setupBodies(EquipmentBody),
    additionTouchesTurns: false,
  })
