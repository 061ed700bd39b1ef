import { Section } from '../../domain/section.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { strictly } from '../setup/body-schemas.ts'
import { setupBodies, storedSchema } from '../setup/setup-resource.ts'
import { setupRoutes } from '../setup/setup-routes.ts'
import type { Api } from '../zod-requests.ts'

export const sectionRoutes = (api: Api, context: ApiContext, once: AnswerOnce): void =>
  setupRoutes(api, context, once, {
    segment: 'sections',
    kind: 'section',
    noun: 'section',
    prefix: 'section',
    answerSchema: storedSchema(Section, 'Section'),
    bodies: setupBodies(strictly(Section.omit({ id: true, siteId: true }))),
    additionTouchesTurns: false,
  })
