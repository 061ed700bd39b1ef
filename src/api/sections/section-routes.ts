import { z } from 'zod'
import { Section } from '../../domain/section.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { setupAddRoute, setupReadRoutes } from '../setup-routes.ts'
import type { Api } from '../zod-requests.ts'

const SectionBody = z.strictObject(Section.omit({ id: true, siteId: true }).shape)

export function sectionRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  const reading = { segment: 'sections', kind: 'section', noun: 'section', answerSchema: Section } as const
  setupReadRoutes(api, context, reading)
  setupAddRoute(api, context, once, {
    ...reading,
    prefix: 'section',
    body: SectionBody,
    rowFrom: (body, id, { site }) => Section.parse({ ...body, id, siteId: site.id }),
    addition: (row) => ({ kind: 'section', row }),
    faults: () => [],
  })
}
