/** What can be wrong with what somebody says they saw. */
import type { Instant } from '../../domain/instant.ts'
import type { Observation } from '../../domain/observation.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { deviceFaults } from '../equipment/device-faults.ts'
import { repeated, unknownIds } from '../known-ids.ts'
import { bodyFault, type Fault } from '../problems.ts'
import { countOf, holdsAt, thingOf } from '../stock-changes/stock-change-faults.ts'

export const observationFaults = (observation: Observation, setup: SiteSetup, now: Instant): Fault[] => [
  ...unknownIds(() => '/roomId', [observation.roomId], setup.rooms, 'room', setup.retired.rooms),
  ...(observation.seenAt > now
    ? [bodyFault('/seenAt', 'nobody has seen the future: it must not be after now')]
    : []),
  ...pieceFaults(observation, setup),
  ...deviceFaults(observation.equipment, observation.roomId, setup),
]

function pieceFaults({ pieces, seenAt }: Observation, setup: SiteSetup): Fault[] {
  const at = (index: number) => `/pieces/${index}/furnishingId`
  const ids = pieces.map(({ furnishingId }) => furnishingId)
  return [
    ...unknownIds(at, ids, setup.furnishings, 'furnishing', setup.retired.furnishings),
    ...repeated(at, ids, 'furnishing'),
    ...pieces.flatMap(({ furnishingId, count }, index) => {
      const furnishing = setup.furnishings.find(({ id }) => id === furnishingId)
      if (!furnishing) return []
      const borrowed = countOf(
        setup.stockChanges.filter(
          (change) =>
            change.why === 'borrowed' && thingOf(change.of) === furnishingId && holdsAt(change, seenAt),
        ),
      )
      const { countOwned, namePlural } = furnishing
      if (count <= countOwned + borrowed) return []
      const has = borrowed > 0 ? `owned ${countOwned} and had borrowed ${borrowed}` : `owns ${countOwned}`
      return [bodyFault(`/pieces/${index}/count`, `${count} ${namePlural} were seen, the site ${has}`)]
    }),
  ]
}
