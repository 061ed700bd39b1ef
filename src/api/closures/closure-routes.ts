import { Closure } from '../../domain/closure.ts'
import { strictly } from '../body-schemas.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { InstantText } from '../instant-text.ts'
import { momentFields } from '../moment-fields.ts'
import { setupBodies, storedSchema } from '../setup-resource.ts'
import { setupRoutes } from '../setup-routes.ts'
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
    answersDecision: true,
  })
