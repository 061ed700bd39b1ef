import { Tool } from '../../domain/tool.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { strictly } from '../setup/body-schemas.ts'
import { setupBodies, storedSchema } from '../setup/setup-resource.ts'
import { setupRoutes } from '../setup/setup-routes.ts'
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
  })
