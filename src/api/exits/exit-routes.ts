import { Exit } from '../../domain/exit.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { strictly } from '../setup/body-schemas.ts'
import { setupBodies, storedSchema } from '../setup/setup-resource.ts'
import { setupRoutes } from '../setup/setup-routes.ts'
import type { Api } from '../zod-requests.ts'

export const exitRoutes = (api: Api, context: ApiContext, once: AnswerOnce): void =>
  setupRoutes(api, context, once, {
    segment: 'exits',
    kind: 'exit',
    noun: 'exit',
    prefix: 'exit',
    answerSchema: storedSchema(Exit, 'Exit'),
    bodies: setupBodies(strictly(Exit.omit({ id: true, siteId: true }))),
    additionTouchesTurns: false,
  })
