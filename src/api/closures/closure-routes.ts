import { z } from 'zod'
import { Closure } from '../../domain/closure.ts'
import { DecisionAnswer } from '../../domain/decision.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { jsonAnswer, send } from '../answer.ts'
import { type ApiContext, setupFor } from '../context.ts'
import { decideAndCommit } from '../decide-and-commit.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { InstantReader, InstantText } from '../instant-text.ts'
import { repeated, unknownIds } from '../known-ids.ts'
import { bodyFault, type Fault, refuseFaults } from '../problems.ts'
import { postHeaders, problemResponses, SiteParams } from '../route-schemas.ts'
import { setupReadRoutes } from '../setup-routes.ts'
import type { Api } from '../zod-requests.ts'

const { sectionIds, reason } = Closure.shape
const ClosureBody = z.strictObject({ sectionIds, fromAt: InstantText, toAt: InstantText, reason })
const ClosureWritten = z.object({ closure: Closure, decision: DecisionAnswer })

export function closureRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  setupReadRoutes(api, context, {
    segment: 'closures',
    kind: 'closure',
    noun: 'closure',
    answerSchema: Closure,
  })
  api.post(
    '/v1/sites/:site/closures',
    {
      schema: {
        tags: ['set-up'],
        summary: 'Close sections for a time; always taken, and the decision says which turns then fail',
        params: SiteParams,
        headers: postHeaders,
        body: ClosureBody,
        response: { 201: ClosureWritten, ...problemResponses },
      },
    },
    async (request, reply) => {
      const answer = await once(request, async (keeper) => {
        const setup = await setupFor(context, request.actor, request.params.site)
        const { site } = setup
        const closure = closureFrom(request.body, context.newId('closure'), setup)
        const location = `/v1/sites/${site.id}/closures/${closure.id}`
        return decideAndCommit(context, {
          site,
          actorId: request.actor.id,
          action: 'close',
          dryRun: false,
          keeper,
          prepare: async () => ({
            operations: [{ kind: 'close', closure }],
            answer: (decision) => jsonAnswer(201, { closure, decision }, site.zone, { location }),
          }),
        })
      })
      return send(reply, answer)
    },
  )
}

/** @throws Problem invalid-input */
function closureFrom(body: z.infer<typeof ClosureBody>, id: string, { site, sections }: SiteSetup): Closure {
  const reader = new InstantReader(site.zone, 'body')
  const fromAt = reader.read('/fromAt', body.fromAt)
  const toAt = reader.read('/toAt', body.toAt)
  const at = (index: number) => `/sectionIds/${index}`
  const ends: Fault[] =
    fromAt !== null && toAt !== null && toAt <= fromAt
      ? [bodyFault('/toAt', 'the end must be after the start')]
      : []
  refuseFaults([
    ...reader.faults,
    ...ends,
    ...unknownIds(at, body.sectionIds, sections, 'section'),
    ...repeated(at, body.sectionIds, 'section'),
  ])
  return Closure.parse({ ...body, fromAt, toAt, id, siteId: site.id })
}
