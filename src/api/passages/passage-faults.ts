/** What can be wrong with a passage beyond its shape. */
import type { Passage } from '../../domain/passage.ts'
import { bodyFault, type Fault } from '../problems.ts'

export const passageFaults = ({ kind, rideSeconds, loadLimitKilograms }: Passage): Fault[] => [
  ...(kind !== 'lift' && rideSeconds > 0
    ? [bodyFault('/rideSeconds', `only a lift takes time to ride; of a ${kind} leave it at 0`)]
    : []),
  ...(kind !== 'lift' && loadLimitKilograms !== null
    ? [bodyFault('/loadLimitKilograms', `only a lift has a load limit; of a ${kind} leave it out`)]
    : []),
]
