import { Observation } from '../../domain/observation.ts'
import { strictly } from '../body-schemas.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { InstantText } from '../instant-text.ts'
import { momentFields } from '../moment-fields.ts'
import { setupBodies, storedSchema } from '../setup-resource.ts'
import { setupRoutes } from '../setup-routes.ts'
import type { Api } from '../zod-requests.ts'

const ObservationBody = strictly(Observation.omit({ id: true, siteId: true }).extend({ seenAt: InstantText }))

const observationBodies = setupBodies(ObservationBody, (body, reader) => ({
  ...body,
  ...momentFields(reader, body, ['seenAt']),
}))

export const observationRoutes = (api: Api, context: ApiContext, once: AnswerOnce): void =>
  setupRoutes(api, context, once, {
    segment: 'observations',
    kind: 'observation',
    noun: 'observation',
    prefix: 'observation',
    answerSchema: storedSchema(Observation, 'Observation'),
    bodies: observationBodies,
    additionTouchesTurns: true,
    answersDecision: true,
  })
