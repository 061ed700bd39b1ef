/**
 * Trolleys, tools, passages, quiet and dark: at no moment is more in use than there is. What there is follows from the
 * set-up, closures and what is out of service then; what a plan says of it is not asked.
 */
import type { HalfOpenInterval } from '../../../domain/half-open-interval.ts'
import { unionOf } from '../../../domain/half-open-interval.ts'
import { Instant, LATEST_AT } from '../../../domain/instant.ts'
import { amountUsed } from '../../../domain/task.ts'
import type { World } from '../../timeline/world.ts'
import type { WholeSite } from './whole-site.ts'

/** Of each trolley in a passage, and of all quiet or dark of a room. */
const WHOLE_PERCENT = 100
const WHOLE = 1000

interface Supply {
  readonly count: number
  /** More, or less where negative, for a while. */
  readonly changes: readonly (HalfOpenInterval & { readonly by: number })[]
}

/** What is in use, and what there is, changes by so much. */
interface Step {
  readonly at: number
  readonly used: number
  readonly there: number
}

export function resourcesOverCount({ world, toCome }: WholeSite): string[] {
  const steps = new Map<string, Step[]>()
  for (const task of toCome.flatMap((turn) => turn.plan?.tasks ?? [])) {
    for (const use of task.uses) {
      const used = amountUsed(use, task.hands)
      const list = steps.get(use.resource) ?? []
      list.push({ at: task.startsAt, used, there: 0 }, { at: task.endsAt, used: -used, there: 0 })
      steps.set(use.resource, list)
    }
  }
  return [...steps].flatMap(([key, list]) => {
    const { count, changes } = supplyOf(world, key)
    const all = [
      ...list,
      ...changes.flatMap(({ fromAt, toAt, by }) => [
        { at: fromAt, used: 0, there: by },
        { at: toAt, used: 0, there: -by },
      ]),
    ]
    const worst = mostOver(count, all)
    return worst ? [`${worst.used} of ${worst.there} ${key} are in use at once`] : []
  })
}

/** @returns where the most too much is in use; null: nowhere */
function mostOver(count: number, steps: Step[]): Omit<Step, 'at'> | null {
  steps.sort((a, b) => a.at - b.at)
  let [used, there] = [0, count]
  let worst: Omit<Step, 'at'> | null = null
  for (const [index, step] of steps.entries()) {
    used += step.used
    there += step.there
    // Of what changes at one moment the sum counts.
    if (steps[index + 1]?.at === step.at) continue
    const is = { used, there: Math.max(0, there) }
    if (is.used - is.there > (worst ? worst.used - worst.there : 0)) worst = is
  }
  return worst
}

const NONE: Supply = { count: 0, changes: [] }

function supplyOf({ setup, closures, furnishingsById, roomsById }: World, key: string): Supply {
  const separator = key.indexOf(':')
  const [kind, id] = [key.slice(0, separator), key.slice(separator + 1)]
  switch (kind) {
    case 'trolley': {
      const piece = [...furnishingsById.values()].find((one) => one.id === id)
      return { count: piece?.trolley?.countOwned ?? 0, changes: [] }
    }
    case 'tool': {
      const tool = setup.tools.find((one) => one.id === id)
      const changes = setup.stockChanges.flatMap(({ of, why, fromAt, toAt }) =>
        of.kind === 'tool' && of.toolId === id
          ? { fromAt, toAt: toAt ?? Instant.parse(LATEST_AT), by: why === 'borrowed' ? of.count : -of.count }
          : [],
      )
      return tool ? { count: tool.countOwned, changes } : NONE
    }
    case 'passage': {
      const passage = setup.passages.find((one) => one.id === id)
      if (!passage) return NONE
      const count = WHOLE_PERCENT * passage.trolleysAtOnce
      const closed = closures.filter(({ passageIds }) => passageIds.some((one) => one === id))
      return { count, changes: unionOf(closed).map(({ fromAt, toAt }) => ({ fromAt, toAt, by: -count })) }
    }
    case 'quiet':
    case 'dark':
      return [...roomsById.keys()].some((roomId) => roomId === id) ? { count: WHOLE, changes: [] } : NONE
    default:
      return NONE
  }
}
