import { Layout } from '../../domain/layout.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { bodyFault, type Fault } from '../problems.ts'
import { strictly } from '../setup/body-schemas.ts'
import { type SetupRowChange, setupBodies, storedSchema } from '../setup/setup-resource.ts'
import { setupRoutes } from '../setup/setup-routes.ts'
import type { Api } from '../zod-requests.ts'

const { seats, furnishings, equipment } = Layout.shape

const LayoutBody = strictly(
  Layout.omit({ id: true, siteId: true }).extend({
    seats: seats.default(null),
    furnishings: furnishings.default([]),
    equipment: equipment.default([]),
  }),
)

export const layoutRoutes = (api: Api, context: ApiContext, once: AnswerOnce): void =>
  setupRoutes(api, context, once, {
    segment: 'layouts',
    kind: 'layout',
    noun: 'layout',
    prefix: 'layout',
    answerSchema: storedSchema(Layout, 'Layout'),
    bodies: setupBodies(LayoutBody),
    additionTouchesTurns: false,
    changeFaults: roomFaults,
  })

/** Bookings, past ones too, name a layout together with its room. */
const roomFaults = ({ before, after }: SetupRowChange<'layout'>): Fault[] =>
  before.roomId === after.roomId
    ? []
    : [bodyFault('/roomId', 'a layout stays in its room; add another one for the other room')]
