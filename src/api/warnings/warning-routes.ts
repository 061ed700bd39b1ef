import { z } from 'zod'
import { Booking } from '../../domain/booking.ts'
import { AnsweredReason } from '../../domain/decision.ts'
import { TurnBrief } from '../../domain/turn.ts'
import { answeredReason, turnBrief } from '../../scheduler/decide/index.ts'
import { jsonAnswer, send } from '../answer.ts'
import { type ApiContext, setupFor } from '../context.ts'
import { PageQuery, pageAnswer, pageOf, pageRequest } from '../list-pages.ts'
import { problemResponses, SiteParams } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'

const Warning = z.object({
  turn: TurnBrief,
  booking: Booking.pick({ id: true, title: true, roomId: true, doorsAt: true }).nullable(),
  reasons: z.array(AnsweredReason),
})

export function warningRoutes(api: Api, context: ApiContext): void {
  api.get(
    '/v1/sites/:site/warnings',
    {
      schema: {
        tags: ['turns'],
        summary: 'What does not fit: turns that fail, the nearest doors first',
        params: SiteParams,
        querystring: PageQuery,
        response: { 200: pageOf(Warning), ...problemResponses },
      },
    },
    async (request, reply) => {
      const setup = await setupFor(context, request.actor, request.params.site)
      const { site } = setup
      const page = await context.store.failingTurns(site.id, context.clock(), pageRequest(request.query))
      const items = await Promise.all(
        page.items.map(async (turn) => {
          const booking = await context.store.booking(site.id, turn.bookingId)
          return {
            turn: turnBrief(turn),
            booking:
              booking && Booking.pick({ id: true, title: true, roomId: true, doorsAt: true }).parse(booking),
            reasons: turn.judgement.reasons.map((reason) => answeredReason(reason, setup)),
          }
        }),
      )
      return send(
        reply,
        jsonAnswer(
          200,
          pageAnswer({ ...page, items }, (item) => item),
          site.zone,
        ),
      )
    },
  )
}
