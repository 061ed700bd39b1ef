/** What can be refused: a new booking, firm or held, and a change of one. */
import { send } from '../answer.ts'
import { type ApiContext, siteFor } from '../context.ts'
import { decideAndCommit } from '../decide-and-commit.ts'
import { DryRunAnswer, DryRunQuery } from '../dry-run.ts'
import type { AnswerKeeper, AnswerOnce } from '../idempotency.ts'
import { requireIfMatch } from '../if-match.ts'
import { changeHeaders, postHeaders, problemResponses, SiteParams } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'
import { BookingBody, BookingPatch } from './booking-body.ts'
import { changedBooking, newBooking } from './booking-from-body.ts'
import { BookingParams, standingBooking } from './find-booking.ts'
import { bookingAfter, WrittenBooking, writtenAnswer } from './written-booking.ts'

const WrittenOrDryAnswer = WrittenBooking.partial({ booking: true })

export function askRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  api.post(
    '/v1/sites/:site/bookings',
    {
      schema: {
        tags: ['bookings'],
        summary: 'Ask for a booking: 201 with the decision, or 409 does-not-fit with the decision',
        description:
          'With `hold` it is kept for a while and lapses unless it is confirmed. With `takeRisk` it is taken although it ' +
          'does not fit, when every reason against it is overridable: the decision then says does-not-fit, and the ' +
          'booking is at risk (`riskAccepted`).',
        params: SiteParams,
        querystring: DryRunQuery,
        headers: postHeaders,
        body: BookingBody,
        response: { 200: DryRunAnswer, 201: WrittenBooking, ...problemResponses },
      },
    },
    async (request, reply) => {
      const { dryRun } = request.query
      const site = await siteFor(context, request.actor, request.params.site)
      const ask = async (keeper: AnswerKeeper | null) => {
        const booking = await newBooking(context, site, request.actor.id, request.body)
        const kind = booking.status === 'TENTATIVE' ? 'hold' : 'book'
        return decideAndCommit(context, {
          site,
          actorId: request.actor.id,
          action: kind,
          dryRun,
          keeper,
          prepare: async () => ({
            operations: [{ kind, booking }],
            answer: (decision, changes) =>
              writtenAnswer(201, site, bookingAfter(changes, booking.id), decision),
          }),
        })
      }
      const answer = dryRun ? await ask(null) : await once(request, ask)
      return send(reply, answer)
    },
  )

  api.patch(
    '/v1/sites/:site/bookings/:id',
    {
      schema: {
        tags: ['bookings'],
        summary: 'Change a booking; it is decided on anew, as a whole',
        description:
          'A risk that was taken is taken anew with `takeRisk`, unless nothing but the title or the end of a hold changes.',
        params: BookingParams,
        querystring: DryRunQuery,
        headers: changeHeaders,
        body: BookingPatch,
        response: { 200: WrittenOrDryAnswer, ...problemResponses },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      const ifMatch = requireIfMatch(request.headers['if-match'], 'booking')
      const answer = await decideAndCommit(context, {
        site,
        actorId: request.actor.id,
        action: 'change',
        dryRun: request.query.dryRun,
        keeper: null,
        prepare: async () => {
          const current = await standingBooking(context, site, request.params.id, ifMatch)
          const booking = await changedBooking(context, site, request.actor.id, current, request.body)
          return {
            operations: [{ kind: 'change', booking }],
            answer: (decision, changes) =>
              writtenAnswer(200, site, bookingAfter(changes, booking.id), decision),
          }
        },
      })
      return send(reply, answer)
    },
  )
}
