/** The hands that the events of others leave at each moment, as one more thing that every task of a turn takes some of. */
import type { CrewDemand } from '../../../domain/booking-terms.ts'
import type { BuiltInstance } from '../plan/built-instance.ts'
import { TICK_MS } from '../plan/tick-grid.ts'

/**
 * Only counted: whose hands they are is left open, so that what is proven of it holds whoever is at those events. Time is
 * rounded so that it leaves more rather than less.
 * @param duties  of others; where none is meanwhile the instance comes back as it is
 */
export function withHandsLeft(built: BuiltInstance, duties: readonly CrewDemand[]): BuiltInstance {
  const { instance, originAt } = built
  const taken = duties
    .map(({ fromAt, toAt, hands }) => ({
      from: Math.max(0, Math.ceil((fromAt - originAt) / TICK_MS)),
      to: Math.min(instance.horizonTick, Math.floor((toAt - originAt) / TICK_MS)),
      hands,
    }))
    .filter(({ from, to }) => from < to)
  if (taken.length === 0) return built
  const available = instance.lanes.flatMap((lane) => lane.available)
  const ticks = [0, ...[...taken, ...available].flatMap(({ from, to }) => [from, to])]
  const isAt = (span: { readonly from: number; readonly to: number }, tick: number) =>
    span.from <= tick && tick < span.to
  const capacity = [...new Set(ticks)]
    .sort((a, b) => a - b)
    .map((fromTick) => {
      const there = available.filter((span) => isAt(span, fromTick)).length
      const away = taken.reduce((sum, span) => sum + (isAt(span, fromTick) ? span.hands : 0), 0)
      return { fromTick, amount: Math.max(0, there - away) }
    })
  const resource = instance.resources.length
  const activities = instance.activities.map((activity) =>
    // What its own event takes is no work of a turn.
    activity.pinned
      ? activity
      : {
          ...activity,
          modes: activity.modes.map((mode) => {
            const amount = mode.hands.reduce((sum, { count }) => sum + count, 0)
            return amount === 0 ? mode : { ...mode, uses: [...mode.uses, { resource, amount }] }
          }),
        },
  )
  const resources = [...instance.resources, { key: 'hands-left', capacity }]
  return { ...built, instance: { ...instance, activities, resources } }
}
