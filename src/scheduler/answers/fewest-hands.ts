/** The fewest hands that have the turn ready by given doors, and how sure it is that fewer cannot. */
import type { FewestHands } from '../../domain/hands-curve.ts'
import type { TurnInstance } from '../turn/index.ts'
import type { PointFound } from './curve-points.ts'
import { lanesBesideCrew } from './hands.ts'
import type { InstanceAround } from './instance-around.ts'
import { instantOf, isExcludedBy } from './ready.ts'

/**
 * What was asked for earlier must be reached in time too.
 * @param points  one or more, by hands from 1 on
 * @param byTick  ready by then
 */
export function fewestHands(
  around: InstanceAround,
  points: readonly PointFound[],
  byTick: number,
): FewestHands {
  const fewest = points.find(({ onTime }) => onTime !== null && onTime.readyTick <= byTick)
  const hands = fewest?.hands ?? null
  const fewer = hands === null ? points.at(-1)!.hands : hands - 1
  const isExcluded = isExcludedForAny(around, fewer, byTick)
  return {
    hands,
    readyAt: fewest ? instantOf(around, fewest.onTime!.readyTick) : null,
    proof: isExcluded ? 'bound' : 'none-found',
  }
}

/**
 * Whether no hands of that number can be ready by then, whoever they are: each of them is taken to have every skill, to
 * be there all the time, and to be held by nothing and paid by nobody.
 */
function isExcludedForAny(around: InstanceAround, hands: number, byTick: number): boolean {
  const { built } = around
  const { instance } = built
  const anybody = Array.from({ length: hands }, (_, index) => ({
    key: `anybody-${index + 1}`,
    skillMask: 2 ** built.skills.length - 1,
    available: [{ from: 0, to: instance.horizonTick }],
    busy: [],
  }))
  const relaxed: TurnInstance = { ...instance, lanes: [...lanesBesideCrew(around), ...anybody] }
  return isExcludedBy(around, relaxed, byTick)
}
