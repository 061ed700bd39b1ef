/** What can be wrong with a layout beyond its shape: pieces the site does not have, conditions a device cannot hold. */
import type { Instant } from '../../domain/instant.ts'
import type { Layout } from '../../domain/layout.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { deviceFaults } from '../equipment/device-faults.ts'
import { repeated, unknownIds } from '../known-ids.ts'
import { bodyFault, type Fault } from '../problems.ts'
import { borrowedMost } from '../stock-changes/borrowed-most.ts'
import { placementFaults } from './placement-faults.ts'
import { protectionFaults } from './protection-faults.ts'

export const layoutFaults = (layout: Layout, setup: SiteSetup, now: Instant): Fault[] => [
  ...unknownIds(() => '/roomId', [layout.roomId], setup.rooms, 'room', setup.retired.rooms),
  ...furnishingFaults(layout, setup, now),
  ...placementFaults(layout, setup),
  ...deviceFaults(layout.equipment, layout.roomId, setup),
  ...protectionFaults(layout, setup),
]

/** A layout may rest on a loan that is still to come: on which days it can be had is for each booking to find. */
function furnishingFaults(layout: Layout, setup: SiteSetup, now: Instant): Fault[] {
  const at = (index: number) => `/furnishings/${index}/furnishingId`
  const ids = layout.furnishings.map(({ furnishingId }) => furnishingId)
  return [
    ...unknownIds(at, ids, setup.furnishings, 'furnishing', setup.retired.furnishings),
    ...repeated(at, ids, 'furnishing'),
    ...layout.furnishings.flatMap(({ furnishingId, count }, index) => {
      const owned = setup.furnishings.find(({ id }) => id === furnishingId)
      if (!owned || count <= owned.countOwned) return []
      const borrowed = borrowedMost(setup.stockChanges, owned.id, now)
      if (count <= owned.countOwned + borrowed) return []
      const has = `owns ${owned.countOwned}${borrowed > 0 ? ` and borrows at most ${borrowed}` : ''}`
      const message = `the layout asks for ${count} ${owned.namePlural}, the site ${has}`
      return [bodyFault(`/furnishings/${index}/count`, message)]
    }),
  ]
}
