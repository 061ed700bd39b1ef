/** What a turn would take, with nobody and nothing else in the way: the time until ready by the number of hands. */
import type { TaskNetwork } from '../../../domain/task.ts'
import { solve, TICK_SECONDS, type TurnInstance } from '../../turn/index.ts'
import { activitiesOf, maskIn, skillsAsked } from './activities-of.ts'
import { capacitySteps } from './capacity-steps.ts'

export interface TimeByHands {
  readonly hands: number
  /** From the start of the work until the room is ready; null: it cannot be done by so few. */
  readonly seconds: number | null
}

/** A turn that is not done after so long is not looked at further. */
const LONGEST_SECONDS = 48 * 3600
const SEED = 1

/**
 * The hands are adults, on duty throughout, and each has every skill that is asked for.
 * @param hands     numbers of hands, ascending
 * @param workMost  schedules tried for each
 * @returns one entry for each number, never rising: who has more hands can let some of them rest
 */
export function timeByHands(network: TaskNetwork, hands: readonly number[], workMost: number): TimeByHands[] {
  const horizonTick = LONGEST_SECONDS / TICK_SECONDS
  const skills = skillsAsked(network.tasks, false)
  const resourceKeys = network.resources.map(({ key }) => key)
  const instance: TurnInstance = {
    turns: [{ releaseTick: 0, dueTick: horizonTick, weight: 1 }],
    activities: activitiesOf(network, [], maskIn(skills), {
      resourceIndex: (key) => resourceKeys.indexOf(key),
      also: () => [],
      turnOf: () => 0,
      place: 0,
      ofHelpers: [],
      firstActivity: 0,
      keyPrefix: '',
    }),
    resources: network.resources.map(({ key, capacity }) => ({ key, capacity: capacitySteps(capacity, []) })),
    lanes: [],
    walkTicks: [[0]],
    horizonTick,
  }
  const lane = (index: number) => ({
    key: `hand-${index + 1}`,
    skillMask: 2 ** skills.length - 1,
    available: [{ from: 0, to: horizonTick }],
    busy: [],
  })
  let fewestTicks: number | null = null
  return hands.map((count) => {
    const { schedule } = solve(
      { ...instance, lanes: Array.from({ length: count }, (_, index) => lane(index)) },
      { workMost, seed: SEED, acceptableReadyTicks: [0] },
    )
    const ticks = schedule?.readyTicks[0] ?? null
    if (ticks !== null && (fewestTicks === null || ticks < fewestTicks)) fewestTicks = ticks
    return { hands: count, seconds: fewestTicks === null ? null : fewestTicks * TICK_SECONDS }
  })
}
