/** Tasks that are going on: who is at them, and until when, on the grid on which turns are planned. */
import type { LaneId } from '../../domain/ids.ts'
import { type Instant, instantPlusSeconds, laterOf } from '../../domain/instant.ts'
import type { Plan, PlannedTask } from '../../domain/plan.ts'
import type { RunningTask } from '../../domain/turn-progress.ts'
import { TICK_SECONDS } from '../turn/index.ts'

export interface RunningNow {
  /** As it is carried out: from now on, by those who are at it. */
  readonly task: PlannedTask
  /** Of the time that can be planned; 0: over before anything else could begin. */
  readonly secondsLeft: number
}

const TICK_MS = TICK_SECONDS * 1000

const wholeSecondOf = (at: Instant): Instant => (Math.floor(at / 1000) * 1000) as Instant

/** The first moment from which something can be planned. */
export const nextTickAt = (at: Instant): Instant => (Math.ceil(at / TICK_MS) * TICK_MS) as Instant

/**
 * @param fromAt   of the work that is still to be planned
 * @param running  of tasks of the plan
 * @returns by key
 */
export function runningNow(
  { tasks }: Plan,
  running: readonly RunningTask[],
  { now, fromAt }: { readonly now: Instant; readonly fromAt: Instant },
): RunningNow[] {
  const told = new Map(running.map((one) => [one.taskKey, one]))
  return tasks
    .flatMap((planned): RunningNow[] => {
      const one = told.get(planned.key)
      if (!one) return []
      const laneIds: LaneId[] = [...(one.laneIds ?? planned.laneIds)]
      // Told in whole seconds: a part of one must not cost a whole tick.
      const endsAt = laterOf(now, nextTickAt(instantPlusSeconds(wholeSecondOf(now), one.secondsLeft)))
      const secondsLeft = Math.max(0, (endsAt - nextTickAt(fromAt)) / 1000)
      return [{ task: { ...planned, laneIds, hands: laneIds.length, startsAt: now, endsAt }, secondsLeft }]
    })
    .sort((a, b) => (a.task.key < b.task.key ? -1 : 1))
}
