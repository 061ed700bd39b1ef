import { z } from 'zod'
import type { SiteId } from '../../domain/ids.ts'
import type { Site } from '../../domain/site.ts'
import { type Actor, roleIn, siteIdsOf } from '../actor.ts'
import { type ApiContext, siteFor } from '../context.ts'
import { Problem } from '../problems.ts'
import { problemResponses } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'
import { defaultEventSettings } from './event-settings.ts'
import { EventStreams } from './event-streams.ts'

const LastEventId = z
  .string()
  .regex(/^[0-9]{1,15}$/, { error: 'expected the id of the last event that was received, as it came' })
  .transform(Number)

const EventsQuery = z.strictObject({
  site: z.string().optional().meta({ description: 'Id of a site; left out: every site' }),
  lastEventId: LastEventId.optional().meta({
    description: 'For clients that cannot set headers. The header goes before it.',
  }),
})

const eventsHeaders = z.looseObject({
  'last-event-id': LastEventId.optional().meta({
    description: 'Id of the last event that was received: what came after it is sent first',
  }),
})

const stream = z.string().meta({
  description:
    'Events `change`, whose data is an object: siteId, resourceKind, resourceId, what (added, changed, cancelled, ' +
    'dropped, retired or erased), at (a moment), auditSequence, and href, the path where it is read, or null. One ' +
    'event `ready`, whose data is {sequence}, says that everything before has been sent.',
})

/** `x-accel-buffering` asks a proxy to pass on each event at once (nginx, ngx_http_proxy_module, proxy_buffering). */
const streamHeaders = {
  'content-type': 'text/event-stream; charset=utf-8',
  'cache-control': 'no-store',
  'x-accel-buffering': 'no',
}

export function eventRoutes(api: Api, context: ApiContext): void {
  const streams = new EventStreams({
    store: context.store,
    settings: { ...defaultEventSettings, ...context.eventSettings },
    report: (fault) => api.log.error({ err: fault }, 'events'),
  })
  // The server would wait for them to end, and they never do by themselves.
  api.addHook('preClose', async () => streams.close())

  api.get(
    '/v1/events',
    {
      schema: {
        tags: ['events'],
        summary: 'What changes, told as it happens: a stream of server-sent events',
        description:
          'Each event has the id of its change. Without a last id the stream begins now; with one, what came after it ' +
          'is sent first, in order, each once. An id that lies ahead of all changes counts as none.',
        querystring: EventsQuery,
        headers: eventsHeaders,
        response: {
          200: {
            description: 'A stream without an end',
            content: { 'text/event-stream': { schema: stream } },
          },
          ...problemResponses,
        },
      },
    },
    async (request, reply) => {
      const { actor, query, headers } = request
      const siteIds =
        query.site === undefined
          ? siteIdsFollowed(actor)
          : [(await siteFollowed(context, actor, query.site)).id]
      const newest = await context.store.newestChange()
      reply.headers(streamHeaders)
      if (request.method === 'HEAD') return reply.send()
      streams.refuseWhenFull()
      const lastEventId = headers['last-event-id'] ?? query.lastEventId ?? newest
      reply.hijack()
      const { raw: response } = reply
      for (const [name, value] of Object.entries(reply.getHeaders()))
        if (value !== undefined) response.setHeader(name, value)
      const { socket } = request.raw
      streams.open({ response, socket, siteIds, sequence: Math.min(lastEventId, newest) })
      return reply
    },
  )
}

/** Requesters follow none: what changes is mostly of others. */
const mayFollow = (actor: Actor, siteId: SiteId): boolean => roleIn(actor, siteId) !== 'requester'

const siteIdsFollowed = (actor: Actor): readonly SiteId[] | null =>
  siteIdsOf(actor)?.filter((siteId) => mayFollow(actor, siteId)) ?? null

/** @throws Problem unknown-resource, not-allowed */
async function siteFollowed(context: ApiContext, actor: Actor, id: string): Promise<Site> {
  const site = await siteFor(context, actor, id)
  if (!mayFollow(actor, site.id))
    throw new Problem('not-allowed', 'As requester of this site you may not follow its changes.')
  return site
}
