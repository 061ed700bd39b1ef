/** A task network as an instance, with so many hands who can do everything and are there all the time. */
import type { TaskNetwork } from '../../../src/domain/task.ts'
import { workKey } from '../../../src/scheduler/decide/plan/work-key.ts'
import type { Activity, TurnInstance } from '../../../src/scheduler/turn/instance.ts'
import { TICK_SECONDS } from '../../../src/scheduler/turn/instance.ts'
import { aTurn, hands, lane } from './a-turn.ts'

/** A group is what a person takes to be one task. */
export function instanceOfNetwork({ tasks, resources }: TaskNetwork, handsCount: number): TurnInstance {
  const groups = [...new Set(tasks.map(workKey))]
  return aTurn({
    activities: tasks.map((work): Activity => {
      const { key, zone, after, modes, uses } = work
      return {
        key,
        turn: 0,
        place: 0,
        group: groups.indexOf(workKey(work)),
        ...(zone === null ? {} : { zone }),
        after: after.map((earlier) => tasks.findIndex((other) => other.key === earlier)),
        modes: modes.map((way) => ({
          durationTicks: Math.max(1, Math.ceil(way.seconds / TICK_SECONDS)),
          hands: hands(way.hands),
          uses: uses.map(({ resource, amount, perHand }) => ({
            resource: resources.findIndex((one) => one.key === resource),
            amount: perHand ? amount * way.hands : amount,
          })),
        })),
      }
    }),
    resources: resources.map(({ key, capacity }) => ({ key, capacity: [{ fromTick: 0, amount: capacity }] })),
    lanes: Array.from({ length: handsCount }, (_, index) => lane(`hand ${index + 1}`)),
  })
}
