import { z } from 'zod'
import { DecisionAnswer } from '../../domain/decision.ts'
import { Shift } from '../../domain/shift.ts'
import { jsonAnswer, send } from '../answer.ts'
import { type ApiContext, setupFor } from '../context.ts'
import { decideAndCommit } from '../decide-and-commit.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { postHeaders, problemResponses, SiteParams } from '../route-schemas.ts'
import { setupReadRoutes } from '../setup-routes.ts'
import type { Api } from '../zod-requests.ts'
import { ShiftBody, shiftFrom } from './shift-from-body.ts'

const ShiftWritten = z.object({ shift: Shift, decision: DecisionAnswer })

export function shiftRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  setupReadRoutes(api, context, { segment: 'shifts', kind: 'shift', noun: 'shift', answerSchema: Shift })
  api.post(
    '/v1/sites/:site/shifts',
    {
      schema: {
        tags: ['set-up'],
        summary:
          'Put somebody on duty; turns that failed are looked at again, and the decision says how they stand',
        params: SiteParams,
        headers: postHeaders,
        body: ShiftBody,
        response: { 201: ShiftWritten, ...problemResponses },
      },
    },
    async (request, reply) => {
      const answer = await once(request, async (keeper) => {
        const setup = await setupFor(context, request.actor, request.params.site)
        const { site } = setup
        const shift = shiftFrom(request.body, context.newId('shift'), setup)
        const location = `/v1/sites/${site.id}/shifts/${shift.id}`
        return decideAndCommit(context, {
          site,
          actorId: request.actor.id,
          action: 'add-shift',
          dryRun: false,
          keeper,
          prepare: async () => ({
            operations: [{ kind: 'add-shift', shift }],
            answer: (decision) => jsonAnswer(201, { shift, decision }, site.zone, { location }),
          }),
        })
      })
      return send(reply, answer)
    },
  )
}
