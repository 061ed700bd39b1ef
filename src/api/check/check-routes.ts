import { z } from 'zod'
import { Finding, FindingWeight } from '../../domain/finding.ts'
import { earlierOf, Instant, instantPlusSeconds, LATEST_AT } from '../../domain/instant.ts'
import { checkSetup } from '../../scheduler/check/index.ts'
import { jsonAnswer, send } from '../answer.ts'
import { CAUTION } from '../caution.ts'
import { type ApiContext, setupFor } from '../context.ts'
import { rowsUpTo } from '../list-pages.ts'
import { problemResponses, SiteParams } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'

/** Bookings so far ahead are looked at, and not more than so many. */
const BOOKED_DAYS = 90
const BOOKINGS_MOST = 1_000

const SetupCheck = z.object({
  items: z.array(Finding).meta({ description: 'What matters most first; none: nothing was found' }),
  counts: z.record(FindingWeight, z.int().min(0)).meta({ description: 'How many of each weight' }),
  checkedAt: Instant,
  caution: z.string(),
})

export function checkRoutes(api: Api, context: ApiContext): void {
  api.get(
    '/v1/sites/:site/check',
    {
      schema: {
        tags: ['set-up'],
        summary: 'Read the whole set-up and list what is missing or odd, each with what to do about it',
        description: `Looks at closures, loans and repairs to come as well, and names what is booked then in the next ${BOOKED_DAYS} days.`,
        params: SiteParams,
        response: { 200: SetupCheck, ...problemResponses },
      },
    },
    async (request, reply) => {
      const setup = await setupFor(context, request.actor, request.params.site)
      const { site } = setup
      const checkedAt = context.clock()
      const latestAt = Instant.parse(LATEST_AT)
      const booked = {
        fromAt: checkedAt,
        toAt: earlierOf(latestAt, instantPlusSeconds(checkedAt, BOOKED_DAYS * 86_400)),
      }
      const [closures, bookings, details] = await Promise.all([
        context.store.closures(site.id, { fromAt: checkedAt, toAt: latestAt }),
        rowsUpTo(BOOKINGS_MOST, (page) => context.store.bookings(site.id, booked, { roomId: null }, page)),
        context.store.personDetails(site.id),
      ])
      const personNames = new Map(details.map(({ personId, name }) => [personId, name]))
      const items = checkSetup({ ...setup, closures, bookings, personNames }, checkedAt)
      const count = (weight: FindingWeight) => items.filter((item) => item.weight === weight).length
      const counts = { missing: count('missing'), odd: count('odd'), note: count('note') }
      return send(reply, jsonAnswer(200, { items, counts, checkedAt, caution: CAUTION }, site.zone))
    },
  )
}
