import { z } from 'zod'
import { Furnishing } from '../../domain/furnishing.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { PieceCount } from '../../domain/units.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { unknownIds } from '../known-ids.ts'
import { bodyFault, type Fault } from '../problems.ts'
import { setupAddRoute, setupReadRoutes } from '../setup-routes.ts'
import type { Api } from '../zod-requests.ts'

const { id: _id, siteId: _siteId, ...shape } = Furnishing.shape

const FurnishingBody = z.strictObject({
  ...shape,
  setPersonSeconds: shape.setPersonSeconds.default(null),
  strikePersonSeconds: shape.strikePersonSeconds.default(null),
  trolley: z.strictObject({ capacityPieces: PieceCount, countOwned: PieceCount }).nullable().default(null),
})

export function furnishingRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  const reading = {
    segment: 'furnishings',
    kind: 'furnishing',
    noun: 'furnishing',
    answerSchema: Furnishing,
  } as const
  setupReadRoutes(api, context, reading)
  setupAddRoute(api, context, once, {
    ...reading,
    prefix: 'furnishing',
    body: FurnishingBody,
    rowFrom: (body, id, { site }) => Furnishing.parse({ ...body, id, siteId: site.id }),
    addition: (row) => ({ kind: 'furnishing', row }),
    faults: furnishingFaults,
  })
}

const furnishingFaults = (furnishing: Furnishing, setup: SiteSetup): Fault[] => [
  ...unknownIds(() => '/storagePlaceId', [furnishing.storagePlaceId], setup.storagePlaces, 'storage place'),
  ...(furnishing.method === 'trolley' && furnishing.trolley === null
    ? [
        bodyFault(
          '/trolley',
          'the method is trolley, so say how many pieces one takes and how many the site owns',
        ),
      ]
    : []),
]
