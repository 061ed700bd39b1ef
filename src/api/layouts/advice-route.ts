/** What published tables advise on a layout: how many people, which ways out, aisles, access, lifting. Never a verdict. */
import { z } from 'zod'
import type { Furnishing } from '../../domain/furnishing.ts'
import { LayoutId } from '../../domain/ids.ts'
import type { Layout } from '../../domain/layout.ts'
import type { Room } from '../../domain/room.ts'
import { CodeTables } from '../../domain/site.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { Headcount } from '../../domain/units.ts'
import {
  ADVICE_CAUTION,
  type AdviceItem,
  accessAdvice,
  layoutAdviceInput,
  liftingAdvice,
  occupancyAdvice,
} from '../../scheduler/standards/advice/index.ts'
import { jsonAnswer, send } from '../answer.ts'
import { type ApiContext, setupFor } from '../context.ts'
import { unknownResource } from '../problems.ts'
import { problemResponses, SiteParams } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'

const AdviceAnswer = z.object({
  layoutId: LayoutId,
  codeTables: CodeTables.meta({ description: 'Whose published tables were used' }),
  items: z.array(
    z.object({
      topic: z.enum(['occupancy', 'exits', 'aisles', 'access', 'lifting']),
      code: z.string(),
      text: z.string(),
      found: z.number().nullable(),
      required: z.number().nullable(),
      unit: z.string(),
      verdict: z.enum(['ok', 'look', 'unknown']).meta({
        description: 'look: somebody should; unknown: what is needed can be said, whether it is there cannot',
      }),
      source: z.string().meta({ description: 'Document and section of the number' }),
      status: z.string().meta({ description: 'Whether it was read, quoted by others, or is from memory' }),
    }),
  ),
  caution: z.string(),
})

const AdviceQuery = z.strictObject({
  headcount: z.coerce.number().pipe(Headcount).optional().meta({
    description: 'Guests expected; left out: as many as there are seats',
  }),
})

export function adviceRoute(api: Api, context: ApiContext): void {
  api.get(
    '/v1/sites/:site/layouts/:id/advice',
    {
      schema: {
        tags: ['set-up'],
        summary:
          'Occupancy, exits, aisles, access and lifting advice for a layout, each number with its source',
        params: SiteParams.extend({ id: z.string() }),
        querystring: AdviceQuery,
        response: { 200: AdviceAnswer, ...problemResponses },
      },
    },
    async (request, reply) => {
      const setup = await setupFor(context, request.actor, request.params.site)
      const layout = setup.layouts.find(({ id }) => id === request.params.id)
      const room = setup.rooms.find(({ id }) => id === layout?.roomId)
      if (!layout || !room) throw unknownResource('layout', request.params.id)
      const items = adviceOn(layout, room, setup, request.query.headcount ?? null)
      const { codeTables, zone } = setup.site
      return send(
        reply,
        jsonAnswer(200, { layoutId: layout.id, codeTables, items, caution: ADVICE_CAUTION }, zone),
      )
    },
  )
}

function adviceOn(layout: Layout, room: Room, setup: SiteSetup, headcount: number | null): AdviceItem[] {
  const input = layoutAdviceInput(layout, room, setup, headcount)
  const furnishings = setup.furnishings.filter(({ id }) =>
    layout.furnishings.some(({ furnishingId }) => furnishingId === id),
  )
  return [
    ...occupancyAdvice(input),
    ...accessAdvice(input),
    ...liftingAdvice({
      units: setup.site.units,
      furnishings,
      carryMetres: (furnishing) => carryMetres(furnishing, room, setup),
      minorMassLimitKilograms: setup.policy.minorMassLimitKilograms,
    }),
  ]
}

function carryMetres(furnishing: Furnishing, room: Room, setup: SiteSetup): number | null {
  const store = setup.storagePlaces.find(({ id }) => id === furnishing.storagePlaceId)
  return store?.routes.find(({ roomId }) => roomId === room.id)?.distanceMetres ?? null
}
