import { Tool } from '../../domain/tool.ts'
import { strictly } from '../body-schemas.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { setupBodies, storedSchema } from '../setup-resource.ts'
import { setupRoutes } from '../setup-routes.ts'
import type { Api } from '../zod-requests.ts'

export const toolRoutes = (api: Api, context: ApiContext, once: AnswerOnce): void =>
  setupRoutes(api, context, once, {
    segment: 'tools',
    kind: 'tool',
    noun: 'tool',
    prefix: 'tool',
    answerSchema: storedSchema(Tool, 'Tool'),
    bodies: setupBodies(strictly(Tool.omit({ id: true, siteId: true }))),
    additionTouchesTurns: true,
    answersDecision: false,
  })
