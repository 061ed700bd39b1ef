import { Furnishing } from '../../domain/furnishing.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { strictly } from '../setup/body-schemas.ts'
import { setupBodies, storedSchema } from '../setup/setup-resource.ts'
import { setupRoutes } from '../setup/setup-routes.ts'
import type { Api } from '../zod-requests.ts'

const { setPersonSeconds, strikePersonSeconds, trolley } = Furnishing.shape

const FurnishingBody = strictly(
  Furnishing.omit({ id: true, siteId: true }).extend({
    setPersonSeconds: setPersonSeconds.default(null),
    strikePersonSeconds: strikePersonSeconds.default(null),
    trolley: trolley.default(null),
  }),
)

export const furnishingRoutes = (api: Api, context: ApiContext, once: AnswerOnce): void =>
  setupRoutes(api, context, once, {
    segment: 'furnishings',
    kind: 'furnishing',
    noun: 'furnishing',
    prefix: 'furnishing',
    answerSchema: storedSchema(Furnishing, 'Furnishing'),
    bodies: setupBodies(FurnishingBody),
    additionTouchesTurns: false,
  })
