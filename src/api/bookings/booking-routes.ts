import { Booking } from '../../domain/booking.ts'
import { DecisionAnswer } from '../../domain/decision.ts'
import { RoomId } from '../../domain/ids.ts'
import { EARLIEST_AT, LATEST_AT } from '../../domain/instant.ts'
import { jsonAnswer, send } from '../answer.ts'
import { type ApiContext, siteFor } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { etagOf } from '../if-match.ts'
import { PageQuery, pageAnswer, pageOf, pageRequest } from '../list-pages.ts'
import { problemResponses, SiteParams } from '../route-schemas.ts'
import { WindowQuery, windowFrom } from '../window-query.ts'
import type { Api } from '../zod-requests.ts'
import { askRoutes } from './ask-routes.ts'
import { decisionToday } from './decision-today.ts'
import { BookingParams, bookingFor } from './find-booking.ts'
import { standingRoutes } from './standing-routes.ts'

export function bookingRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  askRoutes(api, context, once)
  standingRoutes(api, context, once)

  api.get(
    '/v1/sites/:site/bookings',
    {
      schema: {
        tags: ['bookings'],
        summary: 'List bookings that touch a span of time, cancelled ones too, by doors',
        params: SiteParams,
        querystring: PageQuery.extend({ ...WindowQuery.shape, room: RoomId.optional() }),
        response: { 200: pageOf(Booking), ...problemResponses },
      },
    },
    async (request, reply) => {
      const { from, to, room, ...page } = request.query
      const site = await siteFor(context, request.actor, request.params.site)
      const window = windowFrom(site.zone, { from, to }, { fromAt: EARLIEST_AT, toAt: LATEST_AT })
      const filter = { roomId: room ?? null }
      const bookings = await context.store.bookings(site.id, window, filter, pageRequest(page))
      return send(
        reply,
        jsonAnswer(
          200,
          pageAnswer(bookings, (booking) => booking),
          site.zone,
        ),
      )
    },
  )

  api.get(
    '/v1/sites/:site/bookings/:id',
    {
      schema: {
        tags: ['bookings'],
        summary: 'Read one booking; the ETag is its version',
        params: BookingParams,
        response: { 200: Booking, ...problemResponses },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      const booking = await bookingFor(context, site, request.params.id)
      return send(reply, jsonAnswer(200, booking, site.zone, { etag: etagOf(booking) }))
    },
  )

  api.get(
    '/v1/sites/:site/bookings/:id/decision',
    {
      schema: {
        tags: ['bookings'],
        summary: 'How the booking stands today: its turn and the next one as they were last judged',
        params: BookingParams,
        response: { 200: DecisionAnswer, ...problemResponses },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      const booking = await bookingFor(context, site, request.params.id)
      return send(reply, jsonAnswer(200, await decisionToday(context, booking), site.zone))
    },
  )
}
