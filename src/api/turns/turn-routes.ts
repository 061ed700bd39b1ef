import { z } from 'zod'
import { TurnId } from '../../domain/ids.ts'
import { EARLIEST_AT, LATEST_AT } from '../../domain/instant.ts'
import { TurnBrief, TurnPurpose, TurnStatus } from '../../domain/turn.ts'
import { turnBrief } from '../../scheduler/decide/index.ts'
import { jsonAnswer, send } from '../answer.ts'
import { bookingsNamed } from '../bookings/bookings-named.ts'
import { type ApiContext, setupFor, siteFor } from '../context.ts'
import { PageQuery, pageAnswer, pageOf, pageRequest } from '../list-pages.ts'
import { unknownResource } from '../problems.ts'
import { problemResponses, SiteParams } from '../route-schemas.ts'
import { WindowQuery, windowFrom } from '../window-query.ts'
import type { Api } from '../zod-requests.ts'
import { aroundTurnRoutes } from './around-turn-routes.ts'
import { laneLabels } from './lane-labels.ts'
import { reckonedToday } from './reckoned-today.ts'
import { replanRoute } from './replan-route.ts'
import { TurnAnswer, turnAnswer } from './turn-answer.ts'

const TurnInList = TurnBrief.extend({ purpose: TurnPurpose, status: TurnStatus })

export function turnRoutes(api: Api, context: ApiContext): void {
  replanRoute(api, context)
  aroundTurnRoutes(api, context)

  api.get(
    '/v1/sites/:site/turns',
    {
      schema: {
        tags: ['turns'],
        summary: 'List turns that touch a span of time, in brief, by doors',
        params: SiteParams,
        querystring: PageQuery.extend(WindowQuery.shape),
        response: { 200: pageOf(TurnInList), ...problemResponses },
      },
    },
    async (request, reply) => {
      const { from, to, ...page } = request.query
      const site = await siteFor(context, request.actor, request.params.site)
      const window = windowFrom(site.zone, { from, to }, { fromAt: EARLIEST_AT, toAt: LATEST_AT })
      const turns = await context.store.turns(site.id, window, pageRequest(page))
      const items = pageAnswer(turns, (turn) => ({
        ...turnBrief(turn),
        purpose: turn.purpose,
        status: turn.status,
      }))
      return send(reply, jsonAnswer(200, items, site.zone))
    },
  )

  api.get(
    '/v1/sites/:site/turns/:id',
    {
      schema: {
        tags: ['turns'],
        summary:
          'Read one turn whole: its tasks in order and by lane, with times, hands, places and safety notes',
        params: SiteParams.extend({ id: z.string() }),
        response: { 200: TurnAnswer, ...problemResponses },
      },
    },
    async (request, reply) => {
      const setup = await setupFor(context, request.actor, request.params.site)
      const turnId = TurnId.safeParse(request.params.id)
      const turn = turnId.success ? await context.store.turn(setup.site.id, turnId.data) : null
      if (!turn) throw unknownResource('turn', request.params.id)
      const label = await laneLabels(context.store, setup, turn)
      const reckoned = await reckonedToday(context, turn)
      const named = await bookingsNamed(context.store, setup.site.id, turn.judgement.reasons)
      const answer = turnAnswer(turn, { setup, named }, label, reckoned, context.clock())
      return send(reply, jsonAnswer(200, answer, setup.site.zone))
    },
  )
}
