import { z } from 'zod'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { StoragePlace } from '../../domain/storage-place.ts'
import type { ApiContext } from '../context.ts'
import type { AnswerOnce } from '../idempotency.ts'
import { repeated, unknownIds } from '../known-ids.ts'
import type { Fault } from '../problems.ts'
import { setupAddRoute, setupReadRoutes } from '../setup-routes.ts'
import type { Api } from '../zod-requests.ts'

const { name, routes } = StoragePlace.shape

const StoragePlaceBody = z.strictObject({
  name,
  routes: z.array(z.strictObject(routes.element.shape)).max(200).default([]),
})

export function storagePlaceRoutes(api: Api, context: ApiContext, once: AnswerOnce): void {
  const reading = {
    segment: 'storage-places',
    kind: 'storagePlace',
    noun: 'storage place',
    answerSchema: StoragePlace,
  } as const
  setupReadRoutes(api, context, reading)
  setupAddRoute(api, context, once, {
    ...reading,
    prefix: 'storage',
    body: StoragePlaceBody,
    rowFrom: (body, id, { site }) => StoragePlace.parse({ ...body, id, siteId: site.id }),
    addition: (row) => ({ kind: 'storagePlace', row }),
    faults: storagePlaceFaults,
  })
}

function storagePlaceFaults(place: StoragePlace, setup: SiteSetup): Fault[] {
  const at = (index: number) => `/routes/${index}/roomId`
  const roomIds = place.routes.map((route) => route.roomId)
  return [...unknownIds(at, roomIds, setup.rooms, 'room'), ...repeated(at, roomIds, 'room')]
}
