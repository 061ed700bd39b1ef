/** What the solver makes of a network with so many hands, there all the time and able to do everything. */
import { expect } from 'vitest'
import type { TaskNetwork } from '../../../../src/domain/task.ts'
import type { Activity, Lane, TurnInstance } from '../../../../src/scheduler/turn/index.ts'
import { scheduleFaults, solve, TICK_SECONDS } from '../../../../src/scheduler/turn/index.ts'

/** Until ready by the best plan found. */
export function plannedMinutes(network: TaskNetwork, hands: number): number {
  const horizonTick = 960
  const instance: TurnInstance = {
    turns: [{ releaseTick: 0, dueTick: horizonTick, weight: 1 }],
    activities: network.tasks.map((task): Activity => {
      const usesOf = (handsAtIt: number) =>
        task.uses.map(({ resource, amount, perHand }) => ({
          resource: network.resources.findIndex(({ key }) => key === resource),
          amount: perHand ? amount * handsAtIt : amount,
        }))
      return {
        key: task.key,
        turn: 0,
        place: 0,
        modes: task.modes.map((mode) => ({
          durationTicks: Math.max(1, Math.ceil(mode.seconds / TICK_SECONDS)),
          hands: mode.hands === 0 ? [] : [{ count: mode.hands, skillMask: 0 }],
          uses: usesOf(mode.hands),
        })),
        after: task.after.map((key) => network.tasks.findIndex((other) => other.key === key)),
      }
    }),
    resources: network.resources.map(({ key, capacity }) => ({
      key,
      capacity: [{ fromTick: 0, amount: capacity }],
    })),
    lanes: Array.from(
      { length: hands },
      (_, index): Lane => ({
        key: `hand-${index + 1}`,
        skillMask: 0,
        available: [{ from: 0, to: horizonTick }],
        busy: [],
      }),
    ),
    walkTicks: [[0]],
    horizonTick,
  }
  const { schedule } = solve(instance, { workMost: 500, seed: 1 })
  expect(schedule).not.toBeNull()
  expect(scheduleFaults(instance, schedule!)).toEqual([])
  return (schedule!.readyTicks[0]! * TICK_SECONDS) / 60
}
