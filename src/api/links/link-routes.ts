/** Bookings that stand or fall together, and between which of them a room is kept as it is set. */
import { z } from 'zod'
import { Booking } from '../../domain/booking.ts'
import { DecisionAnswer } from '../../domain/decision.ts'
import { BookingId, LinkId } from '../../domain/ids.ts'
import type { Site } from '../../domain/site.ts'
import { jsonAnswer, send } from '../answer.ts'
import { byDoors } from '../bookings/by-doors.ts'
import { type ApiContext, siteFor } from '../context.ts'
import { decideAndCommit } from '../decide-and-commit.ts'
import { DryRunAnswer, DryRunQuery } from '../dry-run.ts'
import type { AnswerKeeper, AnswerOnce } from '../idempotency.ts'
import { repeated } from '../known-ids.ts'
import { bodyFault, type Fault, refuseFaults, unknownResource } from '../problems.ts'
import { postHeaders, problemResponses, SiteParams, writeHeaders } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'
import { Link, linkOf } from './link-answer.ts'

const LinkBody = z.strictObject({
  bookingIds: z.array(BookingId).min(2).max(20),
  keepAsSet: z
    .boolean()
    .default(false)
    .meta({
      description:
        'Between two of them that follow one another in the same room with the same layout, nobody else gets the room ' +
        'and it is not turned; the others are just linked. There must be two such',
    }),
})

const LinkParams = SiteParams.extend({ id: z.string() })

export function linkRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  api.post(
    '/v1/sites/:site/links',
    {
      schema: {
        tags: ['bookings'],
        summary: 'Link bookings, so that they stand or fall together',
        description:
          'Confirming one confirms all, cancelling one or letting its hold lapse gives up all but those that have taken ' +
          'place. All must be firm, or all be holds. A booking has one link at most: what was linked otherwise leaves ' +
          'that link.',
        params: SiteParams,
        querystring: DryRunQuery,
        headers: postHeaders,
        body: LinkBody,
        response: {
          200: DryRunAnswer,
          201: z.object({ link: Link, decision: DecisionAnswer }),
          ...problemResponses,
        },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      const { bookingIds, keepAsSet } = request.body
      const { dryRun } = request.query
      const tied = (keeper: AnswerKeeper | null) => {
        const linkId = LinkId.parse(context.newId('link'))
        return decideAndCommit(context, {
          site,
          actorId: request.actor.id,
          action: 'link',
          dryRun,
          keeper,
          prepare: async () => {
            await mustBeThere(context, site, bookingIds)
            return {
              operations: [{ kind: 'link', linkId, bookingIds, keepAsSet }],
              answer: (decision, changes) => {
                const linked = changes.bookings.flatMap(({ after }) => (after.linkId === linkId ? after : []))
                const link = linkOf(linkId, linked)
                const location = `/v1/sites/${site.id}/links/${linkId}`
                return jsonAnswer(201, { link, decision }, site.zone, { location })
              },
            }
          },
        })
      }
      return send(reply, dryRun ? await tied(null) : await once(request, tied))
    },
  )

  api.get(
    '/v1/sites/:site/links/:id',
    {
      schema: {
        tags: ['bookings'],
        summary: 'Read which bookings a link holds together',
        params: LinkParams,
        response: { 200: Link, ...problemResponses },
      },
    },
    async (request, reply) => {
      const site = await siteFor(context, request.actor, request.params.site)
      const link = await linkFor(context, site, request.params.id)
      return send(reply, jsonAnswer(200, link, site.zone))
    },
  )

  api.delete(
    '/v1/sites/:site/links/:id',
    {
      schema: {
        tags: ['bookings'],
        summary: 'Undo a link: each of its bookings stands by itself again',
        params: LinkParams,
        querystring: DryRunQuery,
        headers: writeHeaders,
        response: {
          200: z.union([
            z.object({
              bookings: z.array(Booking).meta({ description: 'As they stand by themselves, by doors' }),
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
      const answer = await decideAndCommit(context, {
        site,
        actorId: request.actor.id,
        action: 'unlink',
        dryRun: request.query.dryRun,
        keeper: null,
        prepare: async () => {
          const link = await linkFor(context, site, request.params.id)
          return {
            operations: [{ kind: 'unlink', linkId: link.id }],
            answer: (decision, changes) => {
              const freed = changes.bookings.filter(({ before }) => before?.linkId === link.id)
              const bookings = freed.map(({ after }) => after).sort(byDoors)
              return jsonAnswer(200, { bookings, decision }, site.zone)
            },
          }
        },
      })
      return send(reply, answer)
    },
  )
}

/** @throws Problem invalid-input */
async function mustBeThere({ store }: ApiContext, site: Site, ids: readonly BookingId[]): Promise<void> {
  const at = (index: number) => `/bookingIds/${index}`
  refuseFaults(repeated(at, ids, 'booking'))
  const faults: Fault[] = []
  for (const [index, id] of ids.entries()) {
    const booking = await store.booking(site.id, id)
    if (!booking) faults.push(bodyFault(at(index), `there is no booking ${id} in this site`))
    else if (booking.status === 'CANCELLED')
      faults.push(bodyFault(at(index), `${booking.title} is cancelled; leave it out`))
  }
  refuseFaults(faults)
}

/** @throws Problem unknown-resource when no booking has it */
async function linkFor({ store }: ApiContext, site: Site, id: string): Promise<Link> {
  const linkId = LinkId.safeParse(id)
  const bookings = linkId.success ? await store.linkedBookings(site.id, linkId.data) : []
  if (!linkId.success || bookings.length === 0) throw unknownResource('link', id)
  return linkOf(linkId.data, bookings)
}
