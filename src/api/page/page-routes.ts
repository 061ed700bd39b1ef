import { z } from 'zod'
import { SiteId, TurnId } from '../../domain/ids.ts'
import type { Site } from '../../domain/site.ts'
import { LocalDate } from '../../domain/units.ts'
import { localDateOf } from '../../scheduler/timeline/wall-time.ts'
import { type Actor, maySee, roleIn } from '../actor.ts'
import { bookingsNamed } from '../bookings/bookings-named.ts'
import { type ApiContext, setupFor } from '../context.ts'
import { unknownResource } from '../problems.ts'
import { siteActivity } from '../site-activity.ts'
import { laneLabels } from '../turns/lane-labels.ts'
import { warningPage } from '../warnings/warning-page.ts'
import type { Api } from '../zod-requests.ts'
import { aroundTurnNow } from './around-turn-now.ts'
import { page, sendPage } from './frame.ts'
import { html } from './html.ts'
import { STYLE } from './style.ts'
import { turnPage } from './turn-page.ts'
import { weekOf } from './week.ts'
import { weekPage } from './week-page.ts'

const SITES_MOST = 50
const WARNINGS_MOST = 20

const SiteQuery = z.strictObject({
  site: SiteId.optional().meta({ description: 'Left out: the first one by name' }),
})
const WeekQuery = SiteQuery.extend({
  week: LocalDate.refine((date) => date >= '2001-01-01' && date < '2099-01-01', {
    error: 'expected a day from 2001 to 2098',
  })
    .optional()
    .meta({ description: 'Any day of it; left out: this week' }),
})
const htmlAnswer = { description: 'A page', content: { 'text/html': { schema: z.string() } } }
const htmlProblem = { description: 'A page that says what is wrong', content: htmlAnswer.content }
const pageAnswers = { 200: htmlAnswer, '4xx': htmlProblem, '5xx': htmlProblem }

declare module 'fastify' {
  interface FastifyContextConfig {
    /** Asked for by a browser, for somebody to look at: problems are shown as a page too. */
    isPage?: boolean
  }
}

export function pageRoutes(api: Api, context: ApiContext): void {
  api.get(
    '/',
    {
      config: { isPage: true },
      schema: {
        tags: ['pages'],
        summary: 'The week of a site: bookings and, between them, the turns',
        querystring: WeekQuery,
        response: pageAnswers,
      },
    },
    async (request, reply) => {
      const sites = await sitesSeen(context, request.actor)
      const siteId = request.query.site ?? sites[0]?.id
      if (siteId === undefined) return sendPage(reply, noSitePage())
      const setup = await setupFor(context, request.actor, siteId)
      const { site } = setup
      const now = context.clock()
      const today = localDateOf(now, site.zone)
      const week = weekOf(request.query.week ?? today, site.zone)
      const activity = await siteActivity(context.store, site.id, week.window)
      const warnings = await warningPage(context.store, setup, now, { limit: WARNINGS_MOST, after: null })
      const otherSites = sites.filter(({ id }) => id !== site.id)
      return sendPage(reply, weekPage({ setup, otherSites, week, today, ...activity, warnings }))
    },
  )

  api.get(
    '/turns/:id',
    {
      config: { isPage: true },
      schema: {
        tags: ['pages'],
        summary: 'One turn as a sheet for the crew',
        params: z.object({ id: z.string() }),
        querystring: SiteQuery,
        response: pageAnswers,
      },
    },
    async (request, reply) => {
      const { id } = request.params
      const asked = request.query.site
      const siteIds = asked ? [asked] : (await sitesSeen(context, request.actor)).map((site) => site.id)
      const turnId = TurnId.safeParse(id)
      for (const siteId of turnId.success ? siteIds : []) {
        const turn = await context.store.turn(siteId, TurnId.parse(id))
        if (!turn) continue
        const setup = await setupFor(context, request.actor, siteId)
        const booking = await context.store.booking(siteId, turn.bookingId)
        const label = await laneLabels(context.store, setup, turn)
        const named = await bookingsNamed(context.store, siteId, turn.judgement.reasons)
        const around = await aroundTurnNow(context, turn)
        return sendPage(reply, turnPage({ setup, turn, booking, label, named, around }))
      }
      throw unknownResource('turn', id)
    },
  )

  api.get(
    '/style.css',
    {
      schema: {
        tags: ['pages'],
        summary: 'How the pages look',
        response: { 200: { description: 'A stylesheet', content: { 'text/css': { schema: z.string() } } } },
      },
    },
    async (_request, reply) =>
      reply
        .headers({ 'content-type': 'text/css; charset=utf-8', 'cache-control': 'max-age=300' })
        .send(STYLE),
  )
}

async function sitesSeen(context: ApiContext, actor: Actor): Promise<Site[]> {
  const sites = await context.store.sites({ limit: SITES_MOST, after: null })
  // Requesters see busy times only, which these pages do not tell apart.
  return sites.items.filter(({ id }) => maySee(actor, id) && roleIn(actor, id) !== 'requester')
}

const noSitePage = () =>
  page(
    'No site yet',
    html`<h1>No site yet</h1>
<p class="lead">POST /v1/sites adds one; <a href="/openapi.json">the API’s document</a> says how.</p>`,
  )
