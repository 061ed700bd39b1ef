import { DateTime } from 'luxon'
import { z } from 'zod'
import { Booking } from '../../domain/booking.ts'
import { Closure } from '../../domain/closure.ts'
import { RoomId } from '../../domain/ids.ts'
import { Instant } from '../../domain/instant.ts'
import { TurnBrief } from '../../domain/turn.ts'
import { Verdict } from '../../domain/verdict.ts'
import { turnBrief } from '../../scheduler/decide/index.ts'
import type { Store } from '../../store/store.ts'
import { jsonAnswer, send } from '../answer.ts'
import { type ApiContext, setupFor } from '../context.ts'
import { unknownResource } from '../problems.ts'
import { problemResponses, SiteParams } from '../route-schemas.ts'
import { siteActivity } from '../site-activity.ts'
import { WindowQuery, windowFrom } from '../window-query.ts'
import type { Api } from '../zod-requests.ts'
import { roomTimeline, type TimelineEntry } from './room-timeline.ts'

const TimelineAnswer = z.object({
  roomId: RoomId,
  fromAt: Instant,
  toAt: Instant,
  entries: z.array(
    z.discriminatedUnion('kind', [
      z.object({ kind: z.literal('booking'), booking: Booking }),
      z.object({
        kind: z.literal('gap'),
        fromAt: Instant,
        toAt: Instant,
        verdict: Verdict.nullable().meta({
          description:
            'Of the turn that prepares the next booking; null: nothing is to be turned for in this gap',
        }),
        turn: TurnBrief.nullable().meta({ description: 'It prepares the booking that ends the gap' }),
        homeTurn: TurnBrief.nullable().meta({
          description: 'It puts the room back into its home layout; null: the room stays as it is left',
        }),
        keptAsSet: z.boolean().meta({
          description: 'The room waits as it is set for the next booking of a link, and nobody else gets it',
        }),
      }),
    ]),
  ),
  closures: z.array(Closure),
})

const DAYS_MOST = 62

export function timelineRoutes(api: Api, context: ApiContext): void {
  api.get(
    '/v1/sites/:site/rooms/:room/timeline',
    {
      schema: {
        tags: ['bookings'],
        summary:
          'Bookings and gaps of a room in order, each gap with its turns and the verdict; a week when no span is given',
        params: SiteParams.extend({ room: z.string() }),
        querystring: WindowQuery,
        response: { 200: TimelineAnswer, ...problemResponses },
      },
    },
    async (request, reply) => {
      const setup = await setupFor(context, request.actor, request.params.site)
      const room = setup.rooms.find(({ id }) => id === request.params.room)
      if (!room) throw unknownResource('room', request.params.room)
      const { zone } = setup.site
      const window = windowFrom(zone, request.query, nextSevenDays(context.clock(), zone), DAYS_MOST)
      const { bookings, turns, closures } = await siteActivity(context.store, setup.site.id, window)
      const before = await linkedBefore(context.store, bookings, window.fromAt)
      const timeline = roomTimeline(room, setup.rooms, window, [...before, ...bookings], turns, closures)
      const entries = timeline.entries.map(entryAnswer)
      return send(reply, jsonAnswer(200, { roomId: room.id, ...window, ...timeline, entries }, zone))
    },
  )
}

function nextSevenDays(now: Instant, zone: string) {
  const today = DateTime.fromMillis(now, { zone }).startOf('day')
  return { fromAt: today.toMillis(), toAt: today.plus({ days: 7 }).toMillis() }
}

/** Bookings that are over by then and linked with one of these: they may keep a room for it. */
async function linkedBefore(store: Store, bookings: readonly Booking[], fromAt: Instant): Promise<Booking[]> {
  const linked: Booking[] = []
  const links = new Map(bookings.flatMap(({ siteId, linkId }) => (linkId ? [[linkId, siteId] as const] : [])))
  for (const [linkId, siteId] of links) linked.push(...(await store.linkedBookings(siteId, linkId)))
  return linked.filter(({ clearAt }) => clearAt <= fromAt)
}

const entryAnswer = (entry: TimelineEntry) =>
  entry.kind === 'booking'
    ? entry
    : {
        ...entry,
        verdict: entry.turn?.judgement.verdict ?? null,
        turn: entry.turn && turnBrief(entry.turn),
        homeTurn: entry.homeTurn && turnBrief(entry.homeTurn),
      }
