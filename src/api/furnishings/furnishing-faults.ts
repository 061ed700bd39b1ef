/** What can be wrong with a furnishing beyond its shape. */
import type { Furnishing } from '../../domain/furnishing.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { unknownIds } from '../known-ids.ts'
import { bodyFault, type Fault } from '../problems.ts'

export function furnishingFaults(furnishing: Furnishing, setup: SiteSetup): Fault[] {
  const { storagePlaceId, method, trolley, kind, widthMetres, depthMetres } = furnishing
  const faults = unknownIds(
    () => '/storagePlaceId',
    [storagePlaceId],
    setup.storagePlaces,
    'storage place',
    setup.retired.storagePlaces,
  )
  if (method === 'trolley' && trolley === null) {
    const message = 'the method is trolley, so say how many pieces one takes and how many the site owns'
    faults.push(bodyFault('/trolley', message))
  }
  if (method !== 'trolley' && trolley !== null) {
    faults.push(bodyFault('/method', 'it has a trolley: say method trolley, or leave the trolley out'))
  }
  if (kind === 'round-table' && widthMetres !== null && depthMetres !== null && widthMetres !== depthMetres) {
    faults.push(bodyFault('/depthMetres', 'a round table is as deep as it is wide: both are the diameter'))
  }
  return faults
}
