/** Nothing is fetched from a store, or put into it, while it is closed. */
import { overlaps } from '../../../domain/half-open-interval.ts'
import type { PlannedTask } from '../../../domain/plan.ts'
import type { StoragePlace } from '../../../domain/storage-place.ts'
import type { World } from '../../timeline/world.ts'
import type { WholeSite } from './whole-site.ts'

export function storesClosed({ world, toCome }: WholeSite): string[] {
  const closures = world.closures.filter(({ storagePlaceIds }) => storagePlaceIds.length > 0)
  if (closures.length === 0) return []
  return toCome.flatMap((turn) =>
    (turn.plan?.tasks ?? []).flatMap((task) => {
      const store = storeOf(world, task)
      const during = { fromAt: task.startsAt, toAt: task.endsAt }
      const isClosed = closures.some(
        (closure) => store && closure.storagePlaceIds.includes(store.id) && overlaps(closure, during),
      )
      return isClosed ? [`${turn.id} needs ${store?.id} for ${task.key} while it is closed`] : []
    }),
  )
}

/** Between which and the room its pieces go; null: they stay in the room. */
function storeOf(
  { furnishingsById, storagePlacesById }: World,
  { furnishingId, fromPlace, toPlace }: PlannedTask,
): StoragePlace | null {
  const piece = furnishingId === null ? undefined : furnishingsById.get(furnishingId)
  const store = piece && storagePlacesById.get(piece.storagePlaceId)
  return store && [fromPlace, toPlace].includes(store.name) ? store : null
}
