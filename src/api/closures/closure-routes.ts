import { Closure } from '../../domain/closure.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { InstantText } from '../instant-text.ts'
import { strictly } from '../setup/body-schemas.ts'
import { momentFields } from '../setup/moment-fields.ts'
import { setupBodies, storedSchema } from '../setup/setup-resource.ts'
import { setupRoutes } from '../setup/setup-routes.ts'
import type { Api } from '../zod-requests.ts'

const ClosureBody = strictly(
  Closure.omit({ id: true, siteId: true }).extend({
    sectionIds: Closure.shape.sectionIds.default([]),
    fromAt: InstantText,
    toAt: InstantText,
  }),
)

const closureBodies = setupBodies(ClosureBody, (body, reader) => ({
  ...body,
  ...momentFields(reader, body, ['fromAt', 'toAt']),
}))

export const closureRoutes = (api: Api, context: ApiContext, once: AnswerOnce): void =>
  setupRoutes(api, context, once, {
    segment: 'closures',
    kind: 'closure',
    noun: 'closure',
    prefix: 'closure',
    answerSchema: storedSchema(Closure, 'Closure'),
    bodies: closureBodies,
    additionTouchesTurns: true,
  })
