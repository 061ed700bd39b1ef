/** What becomes of a turn that is part done: planned from now, told and not written. */

import { z } from 'zod'
import { TurnId } from '../../domain/ids.ts'
import { jsonAnswer, send } from '../answer.ts'
import { type ApiContext, setupFor } from '../context.ts'
import { bodyFault, invalidInput, Problem, unknownResource } from '../problems.ts'
import { problemResponses, SiteParams } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'
import { laneLabels } from './lane-labels.ts'
import { ReplanAnswer, replanAnswer } from './replan-answer.ts'
import { progressFrom, ReplanBody } from './replan-body.ts'

export function replanRoute(api: Api, context: ApiContext): void {
  api.post(
    '/v1/sites/:site/turns/:id/replan',
    {
      schema: {
        tags: ['turns'],
        summary: 'Plan from now what is left of a turn, and what could be left out. Writes nothing',
        description:
          'Told is what is done, what is running, who is missing or has come, and what stands where that is not what the ' +
          'plan takes it to be. What is done is not planned again, what runs keeps its hands. The plan that people carry ' +
          'is kept where that is in time, if need be at other times; else one is made anew.',
        params: SiteParams.extend({ id: z.string() }),
        body: ReplanBody,
        response: { 200: ReplanAnswer, ...problemResponses },
      },
    },
    async (request, reply) => {
      const setup = await setupFor(context, request.actor, request.params.site)
      const turnId = TurnId.safeParse(request.params.id)
      if (!turnId.success) throw unknownResource('turn', request.params.id)
      const { progress, askedAt } = progressFrom(request.body, setup, context.clock())
      const siteId = setup.site.id
      const answer = await context.decider.replan({ siteId, turnId: turnId.data, progress, askedAt })
      switch (answer.kind) {
        case 'no-turn':
          throw unknownResource('turn', request.params.id)
        case 'faults':
          throw invalidInput(answer.faults.map(({ at, message }) => bodyFault(at, message)))
        case 'turn-is-over':
        case 'no-plan':
          throw new Problem(answer.kind, answer.message)
        case 'replanned': {
          const { replanned } = answer
          const label = await laneLabels(context.store, setup, { siteId, plan: replanned.plan })
          const running = new Set<string>(progress.running.map(({ taskKey }) => taskKey))
          const told = replanAnswer(replanned, running, setup, label)
          return send(reply, jsonAnswer(200, told, setup.site.zone))
        }
        default:
          return answer satisfies never
      }
    },
  )
}
