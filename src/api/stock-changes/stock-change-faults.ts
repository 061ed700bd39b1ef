/** What can be wrong with a stock change beyond its shape: above all, that more would be away than there is. */
import { type Instant, laterOf } from '../../domain/instant.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { StockChange, StockChangeOf } from '../../domain/stock-change.ts'
import { dayAndTimeOf } from '../../scheduler/timeline/wall-time.ts'
import { unknownIds } from '../known-ids.ts'
import { bodyFault, type Fault } from '../problems.ts'

export const stockChangeFaults = (change: StockChange, setup: SiteSetup): Fault[] => [
  ...thingFaults(change.of, setup),
  ...timeFaults(change),
  ...(change.of.kind === 'equipment' ? deviceFaults(change) : countFaults(change, setup)),
]

function thingFaults(of: StockChangeOf, setup: SiteSetup): Fault[] {
  switch (of.kind) {
    case 'furnishing': {
      const { furnishings, retired } = setup
      return unknownIds(
        () => '/of/furnishingId',
        [of.furnishingId],
        furnishings,
        'furnishing',
        retired.furnishings,
      )
    }
    case 'equipment': {
      const { equipment, retired } = setup
      return unknownIds(() => '/of/equipmentId', [of.equipmentId], equipment, 'equipment', retired.equipment)
    }
    case 'tool':
      return unknownIds(() => '/of/toolId', [of.toolId], setup.tools, 'tool')
    default:
      return of satisfies never
  }
}

const timeFaults = ({ fromAt, toAt }: StockChange): Fault[] =>
  toAt !== null && toAt <= fromAt ? [bodyFault('/toAt', 'the end must be after the start')] : []

function deviceFaults({ why }: StockChange): Fault[] {
  return why === 'borrowed'
    ? [bodyFault('/why', 'a borrowed device has states of its own: add it as equipment')]
    : []
}

/** What is away while this change lasts, itself included, over what is owned and borrowed at that moment. */
function countFaults(change: StockChange, setup: SiteSetup): Fault[] {
  const owned = countOwned(change.of, setup)
  if (owned === null || change.why === 'borrowed') return []
  let available = owned.count
  let away = countOf([change])
  for (const { moment, borrowed, missing } of stepsDuring(change, setup.stockChanges)) {
    available += borrowed
    away += missing
    if (away <= available) continue
    const since = dayAndTimeOf(moment, setup.site.zone)
    const message = `from ${since} ${away} ${owned.namePlural} would be away, and there are ${available}`
    return [bodyFault('/of/count', message)]
  }
  return []
}

interface Step {
  readonly moment: Instant
  borrowed: number
  missing: number
}

/** How the other changes of the same thing add up from the beginning of one to its end, moment by moment, in order. */
function stepsDuring(change: StockChange, changes: readonly StockChange[]): Step[] {
  const steps = new Map<Instant, Step>([[change.fromAt, { moment: change.fromAt, borrowed: 0, missing: 0 }]])
  const add = (moment: Instant, other: StockChange, sign: 1 | -1) => {
    const step = steps.get(moment) ?? { moment, borrowed: 0, missing: 0 }
    if (other.why === 'borrowed') step.borrowed += sign * countOf([other])
    else step.missing += sign * countOf([other])
    steps.set(moment, step)
  }
  for (const other of changes) {
    if (other.id === change.id || thingOf(other.of) !== thingOf(change.of)) continue
    const fromAt = laterOf(other.fromAt, change.fromAt)
    if (!holdsAt(change, fromAt) || !holdsAt(other, fromAt)) continue
    add(fromAt, other, 1)
    if (other.toAt !== null && holdsAt(change, other.toAt)) add(other.toAt, other, -1)
  }
  return [...steps.values()].sort((a, b) => a.moment - b.moment)
}

function countOwned(of: StockChangeOf, setup: SiteSetup): { count: number; namePlural: string } | null {
  const rows = [...setup.furnishings, ...setup.tools]
  const row = rows.find(({ id }) => id === thingOf(of))
  return row ? { count: row.countOwned, namePlural: row.namePlural } : null
}

/** Half open, as every span of time. */
export const holdsAt = ({ fromAt, toAt }: StockChange, moment: Instant): boolean =>
  fromAt <= moment && (toAt === null || moment < toAt)

export const countOf = (changes: readonly StockChange[]): number =>
  changes.reduce((sum, { of }) => sum + (of.kind === 'equipment' ? 1 : of.count), 0)

/** The id of the furnishing, device or tool. */
export function thingOf(of: StockChangeOf): string {
  if (of.kind === 'furnishing') return of.furnishingId
  return of.kind === 'equipment' ? of.equipmentId : of.toolId
}
