/** What modes use up, laid out for the inner loops. Empty arrays where there are no consumables. */
import type { TurnInstance } from './instance.ts'

export interface PreparedConsumables {
  readonly consumableCount: number
  /** `modeConsumes[mode * consumableCount + consumable]`, modes as counted over the whole instance. */
  readonly modeConsumes: Float64Array
  /** `leastConsumed[activity * consumableCount + consumable]`: so much it takes however it is done. */
  readonly leastConsumed: Float64Array
  /** By consumable: what is left beyond the least of all activities; below zero: it cannot do. */
  readonly spareConsumables: Float64Array
}

export function preparedConsumables({ activities, consumables = [] }: TurnInstance): PreparedConsumables {
  const count = consumables.length
  const modes = activities.reduce((sum, activity) => sum + activity.modes.length, 0)
  const modeConsumes = new Float64Array(modes * count)
  const leastConsumed = new Float64Array(activities.length * count)
  const spareConsumables = new Float64Array(consumables.map(({ amountMost }) => amountMost))
  if (count > 0) {
    let mode = 0
    for (const [index, activity] of activities.entries()) {
      leastConsumed.fill(Number.POSITIVE_INFINITY, index * count, (index + 1) * count)
      for (const { consumes = [] } of activity.modes) {
        for (const { consumable, amount } of consumes) modeConsumes[mode * count + consumable]! += amount
        for (let one = 0; one < count; one++) {
          const least = leastConsumed[index * count + one]!
          leastConsumed[index * count + one] = Math.min(least, modeConsumes[mode * count + one]!)
        }
        mode += 1
      }
      for (let one = 0; one < count; one++) spareConsumables[one]! -= leastConsumed[index * count + one]!
    }
  }
  return { consumableCount: count, modeConsumes, leastConsumed, spareConsumables }
}
