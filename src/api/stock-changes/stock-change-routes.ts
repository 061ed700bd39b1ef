import { StockChange } from '../../domain/stock-change.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { InstantText } from '../instant-text.ts'
import { strictly } from '../setup/body-schemas.ts'
import { momentFields } from '../setup/moment-fields.ts'
import { setupBodies, storedSchema } from '../setup/setup-resource.ts'
import { setupRoutes } from '../setup/setup-routes.ts'
import type { Api } from '../zod-requests.ts'

const StockChangeBody = strictly(
  StockChange.omit({ id: true, siteId: true }).extend({
    fromAt: InstantText,
    toAt: InstantText.nullable()
      .default(null)
      .meta({ description: 'null or left out: until further notice' }),
  }),
)

const stockChangeBodies = setupBodies(StockChangeBody, (body, reader) => ({
  ...body,
  ...momentFields(reader, body, ['fromAt', 'toAt']),
}))

export const stockChangeRoutes = (api: Api, context: ApiContext, once: AnswerOnce): void =>
  setupRoutes(api, context, once, {
    segment: 'stock-changes',
    kind: 'stockChange',
    noun: 'stock change',
    prefix: 'stockchange',
    description:
      'What is borrowed lets a layout ask for more pieces than are owned: up to the most that is borrowed at one time, now ' +
      'or later. A loan that a layout rests on is neither made smaller nor retired before that layout is.',
    answerSchema: storedSchema(StockChange, 'StockChange'),
    bodies: stockChangeBodies,
    additionTouchesTurns: true,
  })
