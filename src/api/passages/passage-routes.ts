import { Passage } from '../../domain/passage.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { strictly } from '../setup/body-schemas.ts'
import { setupBodies, storedSchema } from '../setup/setup-resource.ts'
import { setupRoutes } from '../setup/setup-routes.ts'
import type { Api } from '../zod-requests.ts'

export const passageRoutes = (api: Api, context: ApiContext, once: AnswerOnce): void =>
  setupRoutes(api, context, once, {
    segment: 'passages',
    kind: 'passage',
    noun: 'passage',
    prefix: 'passage',
    answerSchema: storedSchema(Passage, 'Passage'),
    bodies: setupBodies(strictly(Passage.omit({ id: true, siteId: true }))),
    additionTouchesTurns: false,
  })
