import { Observation } from '../../domain/observation.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { InstantText } from '../instant-text.ts'
import { strictly } from '../setup/body-schemas.ts'
import { momentFields } from '../setup/moment-fields.ts'
import { setupBodies, storedSchema } from '../setup/setup-resource.ts'
import { setupRoutes } from '../setup/setup-routes.ts'
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
  })
