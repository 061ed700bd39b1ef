/** What is done with a booking that stands: it is confirmed, cancelled, or clear later than planned. */
import { z } from 'zod'
import { Booking, leftAt } from '../../domain/booking.ts'
import { type Changes, DecisionAnswer } from '../../domain/decision.ts'
import { BookingId } from '../../domain/ids.ts'
import type { Instant } from '../../domain/instant.ts'
import type { Site } from '../../domain/site.ts'
import { dayAndTimeOf } from '../../scheduler/timeline/wall-time.ts'
import { jsonAnswer, send } from '../answer.ts'
import { type ApiContext, siteFor } from '../context.ts'
import { decideAndCommit } from '../decide-and-commit.ts'
import { DryRunAnswer, DryRunQuery } from '../dry-run.ts'
import type { AnswerKeeper, AnswerOnce } from '../idempotency.ts'
import { etagOf } from '../if-match.ts'
import { InstantReader, InstantText } from '../instant-text.ts'
import { bodyFault, type Fault, refuseFaults } from '../problems.ts'
import { changeHeaders, postHeaders, problemResponses } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'
import { boundaryFaults } from './boundary-faults.ts'
import { byDoors } from './by-doors.ts'
import { BookingParams, standingBooking } from './find-booking.ts'
import { bookingAfter, WrittenBooking, writtenAnswer } from './written-booking.ts'

const actionHeaders = postHeaders.extend(changeHeaders.shape)

export function standingRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  api.post(
    '/v1/sites/:site/bookings/:id/confirm',
    {
      schema: {
        tags: ['bookings'],
        summary: 'Make a hold firm, and with it every hold of its link',
        params: BookingParams,
        querystring: DryRunQuery,
        headers: actionHeaders,
        body: z.strictObject({}).nullish(),
        response: {
          200: z.union([
            z.object({
              bookings: z.array(Booking).meta({ description: 'All that became firm, by doors' }),
              decision: DecisionAnswer,
            }),
            DryRunAnswer,
          ]),
          ...problemResponses,
        },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      const ifMatch = request.headers['if-match']
      const { dryRun } = request.query
      const confirm = (keeper: AnswerKeeper | null) =>
        decideAndCommit(context, {
          site,
          actorId: request.actor.id,
          action: 'confirm',
          dryRun,
          keeper,
          prepare: async () => {
            const { id, version } = await standingBooking(context, site, request.params.id, ifMatch)
            return {
              operations: [
                { kind: 'confirm', bookingId: id, versionExpected: ifMatch === undefined ? null : version },
              ],
              answer: (decision, changes) => {
                const bookings = becameFirm(changes)
                const headers = { etag: etagOf(bookingAfter(changes, id)) }
                return jsonAnswer(200, { bookings, decision }, site.zone, headers)
              },
            }
          },
        })
      return send(reply, dryRun ? await confirm(null) : await once(request, confirm))
    },
  )

  api.post(
    '/v1/sites/:site/bookings/:id/clear-later',
    {
      schema: {
        tags: ['bookings'],
        summary: 'The last guest is out later than planned; always taken, also when doors are open already',
        description:
          'It is as it is, so it is not refused for what follows from it: `decision` says which turns no longer stand. ' +
          'Beyond doors of the next booking it stays clear at those doors by plan, and `overrunsUntilAt` says how it is.',
        params: BookingParams,
        querystring: DryRunQuery,
        headers: actionHeaders,
        body: z.strictObject({ clearAt: InstantText }),
        response: { 200: z.union([WrittenBooking, DryRunAnswer]), ...problemResponses },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      const ifMatch = request.headers['if-match']
      const { dryRun } = request.query
      const clearLater = (keeper: AnswerKeeper | null) =>
        decideAndCommit(context, {
          site,
          actorId: request.actor.id,
          action: 'clear-later',
          dryRun,
          keeper,
          prepare: async () => {
            const booking = await standingBooking(context, site, request.params.id, ifMatch)
            const { id, version } = booking
            const clearAt = laterClear(site, booking, request.body.clearAt)
            const versionExpected = ifMatch === undefined ? null : version
            return {
              operations: [{ kind: 'clear-later', bookingId: id, clearAt, versionExpected }],
              answer: (decision, changes) => writtenAnswer(200, site, bookingAfter(changes, id), decision),
            }
          },
        })
      return send(reply, dryRun ? await clearLater(null) : await once(request, clearLater))
    },
  )

  api.delete(
    '/v1/sites/:site/bookings/:id',
    {
      schema: {
        tags: ['bookings'],
        summary: 'Cancel a booking and all of its link; they stay readable. Always succeeds before doors',
        params: BookingParams,
        querystring: DryRunQuery,
        headers: changeHeaders,
        response: {
          200: z.union([
            WrittenBooking.extend({
              alsoCancelled: z
                .array(BookingId)
                .meta({ description: 'The others of its link, by doors; none: it stood by itself' }),
            }),
            DryRunAnswer,
          ]),
          ...problemResponses,
        },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      const answer = await decideAndCommit(context, {
        site,
        actorId: request.actor.id,
        action: 'cancel',
        dryRun: request.query.dryRun,
        keeper: null,
        prepare: async () => {
          const ifMatch = request.headers['if-match']
          const { id, version } = await standingBooking(context, site, request.params.id, ifMatch)
          return {
            operations: [
              { kind: 'cancel', bookingId: id, versionExpected: ifMatch === undefined ? null : version },
            ],
            answer: (decision, changes) =>
              writtenAnswer(200, site, bookingAfter(changes, id), decision, {
                alsoCancelled: othersCancelled(changes, id),
              }),
          }
        },
      })
      return send(reply, answer)
    },
  )
}

/** @throws Problem invalid-input */
function laterClear(site: Site, booking: Booking, text: string): Instant {
  const reader = new InstantReader(site.zone, 'body')
  const clearAt = reader.read('/clearAt', text)
  refuseFaults(clearAt === null ? reader.faults : laterFaults(site, booking, clearAt))
  return clearAt!
}

function laterFaults(site: Site, booking: Booking, clearAt: Instant): Fault[] {
  if (clearAt > leftAt(booking)) return boundaryFaults({ ...booking, clearAt })
  const planned = dayAndTimeOf(leftAt(booking), site.zone)
  return [bodyFault('/clearAt', `must be later than clear as it is planned now, ${planned}`)]
}

const becameFirm = (changes: Changes): Booking[] =>
  changes.bookings
    .filter(({ before, after }) => before?.status === 'TENTATIVE' && after.status === 'CONFIRMED')
    .map(({ after }) => after)
    .sort(byDoors)

const othersCancelled = (changes: Changes, id: BookingId): BookingId[] =>
  changes.bookings
    .map(({ after }) => after)
    .filter((booking) => booking.id !== id && booking.status === 'CANCELLED')
    .sort(byDoors)
    .map((booking) => booking.id)
