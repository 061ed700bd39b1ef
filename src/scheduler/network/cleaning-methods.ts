/** What the floor needs after a use: which methods, on which part of it, in which order. */
import type { CleaningMethod } from '../../domain/cleaning-method.ts'
import type { FloorKind } from '../../domain/section.ts'
import type { NetworkInput, OutgoingUse } from './network-input.ts'

export interface CleaningJob {
  readonly method: CleaningMethod
  /** Part of the area, above 0, at most 1. */
  readonly share: number
  /** 0: it may be walked on at once. */
  readonly dryingSeconds: number
  /** The kind of floor that takes so long; null: none is wet. */
  readonly dryingFloorKind: Exclude<FloorKind, 'carpet'> | null
}

const isWet = (method: CleaningMethod): boolean => method === 'spot-mop' || method === 'wet-mop'

/**
 * The methods of the policy for the kind of use, in its order. Food adds a spot mop. A wet floor is wet-mopped instead of
 * all that: a dust mop only smears what is wet; after food, what lies about is swept up first (common practice, no
 * source). Hard floors are swept where the policy says vacuum; carpet is vacuumed whatever the policy says, as no
 * mop or broom suits it (a soaked carpet needs somebody who looks after carpets). Where a room has both, each kind
 * of floor is taken to have an equal part: sections' own areas are not part of the input. Spots dry as slowly as a
 * mopped floor.
 * @returns empty when nobody used the room, or the policy wants nothing done
 */
export function cleaningJobs({
  outgoing,
  policy,
  floorKinds,
  rates,
}: Pick<NetworkInput, 'outgoing' | 'policy' | 'floorKinds' | 'rates'>): CleaningJob[] {
  if (!outgoing) return []
  const methods = methodsAfter(outgoing, policy.cleaning[outgoing.kind])
  if (methods.length === 0) return []
  const hardKinds = floorKinds.filter((kind) => kind !== 'carpet')
  const hardShare = hardKinds.length / floorKinds.length
  const slowest = slowestToDry(hardKinds, rates.dryingSeconds)
  const jobs: CleaningJob[] = []
  if (floorKinds.includes('carpet')) {
    jobs.push({ method: 'vacuum', share: 1 - hardShare, dryingSeconds: 0, dryingFloorKind: null })
  }
  if (hardKinds.length > 0) {
    const onHardFloor = new Set(methods.map((method) => (method === 'vacuum' ? 'sweep' : method)))
    for (const method of onHardFloor) {
      const dries = isWet(method) ? slowest : null
      jobs.push({
        method,
        share: hardShare,
        dryingSeconds: dries ? rates.dryingSeconds[dries] : 0,
        dryingFloorKind: dries,
      })
    }
  }
  return jobs
}

function methodsAfter(outgoing: OutgoingUse, usual: readonly CleaningMethod[]): CleaningMethod[] {
  if (outgoing.floorWet) return outgoing.foodServed ? ['sweep', 'wet-mop'] : ['wet-mop']
  const methods = new Set(usual)
  if (outgoing.foodServed) methods.add('spot-mop')
  if (methods.has('wet-mop')) methods.delete('spot-mop')
  return [...methods]
}

function slowestToDry(
  kinds: readonly Exclude<FloorKind, 'carpet'>[],
  dryingSeconds: NetworkInput['rates']['dryingSeconds'],
): Exclude<FloorKind, 'carpet'> | null {
  return [...kinds].sort((a, b) => dryingSeconds[b] - dryingSeconds[a])[0] ?? null
}
