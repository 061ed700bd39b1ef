/** What can be wrong with a layout beyond its shape: pieces the site does not have, conditions a device cannot hold. */
import type { Layout } from '../../domain/layout.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { deviceFaults } from '../equipment/device-faults.ts'
import { repeated, unknownIds } from '../known-ids.ts'
import { bodyFault, type Fault } from '../problems.ts'
import { placementFaults } from './placement-faults.ts'
import { protectionFaults } from './protection-faults.ts'

export const layoutFaults = (layout: Layout, setup: SiteSetup): Fault[] => [
  ...unknownIds(() => '/roomId', [layout.roomId], setup.rooms, 'room', setup.retired.rooms),
  ...furnishingFaults(layout, setup),
  ...placementFaults(layout, setup),
  ...deviceFaults(layout.equipment, layout.roomId, setup),
  ...protectionFaults(layout, setup),
]

function furnishingFaults(layout: Layout, setup: SiteSetup): Fault[] {
  const at = (index: number) => `/furnishings/${index}/furnishingId`
  const ids = layout.furnishings.map(({ furnishingId }) => furnishingId)
  return [
    ...unknownIds(at, ids, setup.furnishings, 'furnishing', setup.retired.furnishings),
    ...repeated(at, ids, 'furnishing'),
    ...layout.furnishings.flatMap(({ furnishingId, count }, index) => {
      const owned = setup.furnishings.find(({ id }) => id === furnishingId)
      if (!owned || count <= owned.countOwned) return []
      const message = `the layout asks for ${count} ${owned.namePlural}, the site owns ${owned.countOwned}`
      return [bodyFault(`/furnishings/${index}/count`, message)]
    }),
  ]
}
