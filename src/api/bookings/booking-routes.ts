import { z } from 'zod'
import { Booking } from '../../domain/booking.ts'
import { type Changes, DecisionAnswer } from '../../domain/decision.ts'
import { BookingId, RoomId } from '../../domain/ids.ts'
import { EARLIEST_AT, LATEST_AT } from '../../domain/instant.ts'
import type { Site } from '../../domain/site.ts'
import { jsonAnswer, send } from '../answer.ts'
import { type ApiContext, siteFor } from '../context.ts'
import { decideAndCommit } from '../decide-and-commit.ts'
import type { AnswerKeeper, AnswerOnce } from '../idempotency.ts'
import { etagOf, refuseStale } from '../if-match.ts'
import { PageQuery, pageAnswer, pageOf, pageRequest } from '../list-pages.ts'
import { Problem, unknownResource } from '../problems.ts'
import { changeHeaders, postHeaders, problemResponses, SiteParams } from '../route-schemas.ts'
import { WindowQuery, windowFrom } from '../window-query.ts'
import type { Api } from '../zod-requests.ts'
import { BookingBody, BookingPatch } from './booking-body.ts'
import { changedBooking, newBooking } from './booking-from-body.ts'
import { decisionToday } from './decision-today.ts'

const BookingParams = SiteParams.extend({ id: z.string() })
const DryRunQuery = z.strictObject({
  dryRun: z
    .enum(['true', 'false'], { error: 'expected true or false' })
    .transform((dryRun) => dryRun === 'true')
    .default(false)
    .meta({ description: 'true: only the decision, nothing is written' }),
})
const DryRunAnswer = z.object({ decision: DecisionAnswer })
const WrittenAnswer = z.object({ booking: Booking, decision: DecisionAnswer })
const WrittenOrDryAnswer = WrittenAnswer.partial({ booking: true })

export function bookingRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  api.post(
    '/v1/sites/:site/bookings',
    {
      schema: {
        tags: ['bookings'],
        summary: 'Ask for a booking: 201 with the decision, or 409 does-not-fit with the decision',
        params: SiteParams,
        querystring: DryRunQuery,
        headers: postHeaders,
        body: BookingBody,
        response: { 200: DryRunAnswer, 201: WrittenAnswer, ...problemResponses },
      },
    },
    async (request, reply) => {
      const { dryRun } = request.query
      const site = await siteFor(context, request.actor, request.params.site)
      const ask = async (keeper: AnswerKeeper | null) => {
        const booking = await newBooking(context, site, request.body)
        return decideAndCommit(context, {
          site,
          actorId: request.actor.id,
          action: 'book',
          dryRun,
          keeper,
          prepare: async () => ({
            operations: [{ kind: 'book', booking }],
            answer: (decision, changes) => written(201, site, bookingAfter(changes, booking.id), decision),
          }),
        })
      }
      const answer = dryRun ? await ask(null) : await once(request, ask)
      return send(reply, answer)
    },
  )

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

  api.patch(
    '/v1/sites/:site/bookings/:id',
    {
      schema: {
        tags: ['bookings'],
        summary: 'Change a booking; it is decided on anew, as a whole',
        params: BookingParams,
        querystring: DryRunQuery,
        headers: changeHeaders,
        body: BookingPatch,
        response: { 200: WrittenOrDryAnswer, ...problemResponses },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      const ifMatch = request.headers['if-match']
      if (ifMatch === undefined)
        throw new Problem('precondition-required', 'Send If-Match with the ETag of the booking.')
      const answer = await decideAndCommit(context, {
        site,
        actorId: request.actor.id,
        action: 'change',
        dryRun: request.query.dryRun,
        keeper: null,
        prepare: async () => {
          const current = await standingBooking(context, site, request.params.id, ifMatch)
          const booking = await changedBooking(context, site, current, request.body)
          return {
            operations: [{ kind: 'change', booking }],
            answer: (decision, changes) => written(200, site, bookingAfter(changes, booking.id), decision),
          }
        },
      })
      return send(reply, answer)
    },
  )

  api.delete(
    '/v1/sites/:site/bookings/:id',
    {
      schema: {
        tags: ['bookings'],
        summary: 'Cancel a booking; it stays readable, and always succeeds before doors',
        params: BookingParams,
        headers: changeHeaders,
        response: { 200: WrittenAnswer, ...problemResponses },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      const answer = await decideAndCommit(context, {
        site,
        actorId: request.actor.id,
        action: 'cancel',
        dryRun: false,
        keeper: null,
        prepare: async () => {
          const ifMatch = request.headers['if-match']
          const { id, version } = await standingBooking(context, site, request.params.id, ifMatch)
          return {
            operations: [
              { kind: 'cancel', bookingId: id, versionExpected: ifMatch === undefined ? null : version },
            ],
            answer: (decision, changes) => written(200, site, bookingAfter(changes, id), decision),
          }
        },
      })
      return send(reply, answer)
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

async function bookingFor({ store }: ApiContext, site: Site, id: string): Promise<Booking> {
  const bookingId = BookingId.safeParse(id)
  const booking = bookingId.success ? await store.booking(site.id, bookingId.data) : null
  if (!booking) throw unknownResource('booking', id)
  return booking
}

/** One that is not cancelled, at a version that If-Match names, where there is one. */
async function standingBooking(
  context: ApiContext,
  site: Site,
  id: string,
  ifMatch: string | undefined,
): Promise<Booking> {
  const booking = await bookingFor(context, site, id)
  if (ifMatch !== undefined) refuseStale(ifMatch, booking, 'booking')
  if (booking.status === 'CANCELLED')
    throw new Problem('already-cancelled', `${booking.title} is cancelled already.`)
  return booking
}

function bookingAfter(changes: Changes, id: BookingId): Booking {
  const change = changes.bookings.find(({ after }) => after.id === id)
  if (!change) throw new Error(`the decision does not write the booking it was asked for, ${id}`)
  return change.after
}

function written(status: number, site: Site, booking: Booking, decision: DecisionAnswer) {
  const location = `/v1/sites/${site.id}/bookings/${booking.id}`
  return jsonAnswer(status, { booking, decision }, site.zone, {
    etag: etagOf(booking),
    ...(status === 201 ? { location } : {}),
  })
}
