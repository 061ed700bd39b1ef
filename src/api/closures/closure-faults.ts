/** What can be wrong with a closure beyond its shape. */
import type { Closure } from '../../domain/closure.ts'
import { secondsBetween } from '../../domain/instant.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { repeated, unknownIds } from '../known-ids.ts'
import { bodyFault, type Fault } from '../problems.ts'

const DAYS_MOST = 366

export function closureFaults(closure: Closure, setup: SiteSetup): Fault[] {
  const { retired } = setup
  return [
    ...timeFaults(closure),
    ...nothingFault(closure),
    ...listFaults('sectionIds', closure.sectionIds, setup.sections, 'section', retired.sections),
    ...listFaults(
      'storagePlaceIds',
      closure.storagePlaceIds,
      setup.storagePlaces,
      'storage place',
      retired.storagePlaces,
    ),
    ...listFaults('passageIds', closure.passageIds, setup.passages, 'passage'),
    ...listFaults('exitIds', closure.exitIds, setup.exits, 'exit'),
  ]
}

function timeFaults({ fromAt, toAt }: Closure): Fault[] {
  if (toAt <= fromAt) return [bodyFault('/toAt', 'the end must be after the start')]
  return secondsBetween(fromAt, toAt) > DAYS_MOST * 86_400
    ? [bodyFault('/toAt', `a closure may last ${DAYS_MOST} days; retire what will not be used again`)]
    : []
}

function nothingFault({ sectionIds, storagePlaceIds, passageIds, exitIds }: Closure): Fault[] {
  const closed = [sectionIds, storagePlaceIds, passageIds, exitIds].reduce((sum, ids) => sum + ids.length, 0)
  const message = 'it closes nothing: name sections, storage places, passages or exits'
  return closed > 0 ? [] : [bodyFault('', message)]
}

function listFaults(
  field: string,
  ids: readonly string[],
  known: readonly { id: string; name: string }[],
  noun: string,
  retired: readonly { id: string; name: string }[] = [],
): Fault[] {
  const at = (index: number) => `/${field}/${index}`
  return [...unknownIds(at, ids, known, noun, retired), ...repeated(at, ids, noun)]
}
