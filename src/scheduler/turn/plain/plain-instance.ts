/**
 * An instance in which nothing but precedence, resources that are the same all the time, and consumables decide: no lanes,
 * one turn. It is scheduled tick by tick, many times as fast.
 */
import type { TurnInstance } from '../instance.ts'

export interface PlainMode {
  readonly duration: number
  /** By resource. */
  readonly uses: readonly number[]
  /** By consumable. */
  readonly consumes: readonly number[]
}

export interface PlainTask {
  readonly modes: readonly PlainMode[]
  readonly successors: readonly number[]
}

export interface PlainInstance {
  readonly resources: readonly number[]
  readonly consumables: readonly number[]
  readonly tasks: readonly PlainTask[]
}

/** No table of ticks is longer. */
const TICKS_MOST = 200_000
/** Capacities are packed into words of 32 bits. */
const AMOUNT_MOST = 2 ** 29

/** @returns null when something else decides too, or it is too long to be scheduled tick by tick */
export function plainInstance(instance: TurnInstance): PlainInstance | null {
  const { activities, resources, turns, lanes, horizonTick, consumables = [] } = instance
  const [turn] = turns
  const isPlain =
    turn !== undefined &&
    turns.length === 1 &&
    lanes.length === 0 &&
    activities.every(({ pinned, modes }) => !pinned && modes.every(({ hands }) => hands.length === 0)) &&
    resources.every(({ capacity }) => isConstant(capacity, turn.releaseTick))
  if (!isPlain) return null
  const ticksMost = activities.reduce(
    (sum, { modes }) => sum + modes.reduce((most, { durationTicks }) => Math.max(most, durationTicks), 0),
    0,
  )
  if (ticksMost > TICKS_MOST || turn.releaseTick + ticksMost > horizonTick) return null
  const successors: number[][] = activities.map(() => [])
  for (const [index, { after }] of activities.entries()) {
    for (const before of new Set(after)) successors[before]!.push(index)
  }
  return {
    resources: resources.map(({ capacity }) => capacity[0]!.amount),
    consumables: consumables.map(({ amountMost }) => amountMost),
    tasks: activities.map(({ modes }, index) => ({
      modes: modes.map(({ durationTicks, uses, consumes = [] }) => ({
        duration: durationTicks,
        uses: resources.map((_, at) =>
          uses.reduce((sum, { resource, amount }) => sum + (resource === at ? amount : 0), 0),
        ),
        consumes: consumables.map((_, at) =>
          consumes.reduce((sum, { consumable, amount }) => sum + (consumable === at ? amount : 0), 0),
        ),
      })),
      successors: successors[index]!,
    })),
  }
}

const isConstant = (capacity: TurnInstance['resources'][number]['capacity'], releaseTick: number): boolean =>
  capacity.length === 1 && capacity[0]!.fromTick <= releaseTick && capacity[0]!.amount <= AMOUNT_MOST
