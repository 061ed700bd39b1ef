import { StoragePlace } from '../../domain/storage-place.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { strictly } from '../setup/body-schemas.ts'
import { setupBodies, storedSchema } from '../setup/setup-resource.ts'
import { setupRoutes } from '../setup/setup-routes.ts'
import type { Api } from '../zod-requests.ts'

const StoragePlaceBody = strictly(
  StoragePlace.omit({ id: true, siteId: true }).extend({ routes: StoragePlace.shape.routes.default([]) }),
)

export const storagePlaceRoutes = (api: Api, context: ApiContext, once: AnswerOnce): void =>
  setupRoutes(api, context, once, {
    segment: 'storage-places',
    kind: 'storagePlace',
    noun: 'storage place',
    prefix: 'storage',
    answerSchema: storedSchema(StoragePlace, 'StoragePlace'),
    bodies: setupBodies(StoragePlaceBody),
    additionTouchesTurns: false,
  })
