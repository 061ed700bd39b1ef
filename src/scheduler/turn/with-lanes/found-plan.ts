/** A draft with what it is judged by, in this order: weighted lateness, weighted ready ticks, person-ticks. */

import type { Schedule } from '../instance.ts'
import type { PreparedInstance } from '../prepared-instance.ts'
import type { Draft } from './draft.ts'

export interface FoundPlan {
  readonly draft: Draft
  readonly readyTicks: readonly number[]
  readonly weightedLateTicks: number
  readonly weightedReadyTicks: number
  readonly personTicks: number
}

export function foundPlan(problem: PreparedInstance, draft: Draft): FoundPlan {
  const readyTicks = Array.from(problem.releaseTicks)
  let personTicks = 0
  for (let activity = 0; activity < problem.activityCount; activity++) {
    const turn = problem.turnOf[activity]!
    readyTicks[turn] = Math.max(readyTicks[turn]!, draft.ends[activity]!)
    personTicks += problem.modePersonTicks[draft.modes[activity]!]!
  }
  let weightedLateTicks = 0
  let weightedReadyTicks = 0
  for (let turn = 0; turn < problem.turnCount; turn++) {
    const weight = problem.weights[turn]!
    weightedLateTicks += weight * Math.max(0, readyTicks[turn]! - problem.dueTicks[turn]!)
    weightedReadyTicks += weight * readyTicks[turn]!
  }
  return { draft, readyTicks, weightedLateTicks, weightedReadyTicks, personTicks }
}

/** Whether `plan` is the better one; two that are equal in everything that counts are not. */
export function isBetter(plan: FoundPlan, than: FoundPlan | null): boolean {
  if (than === null) return true
  const more =
    plan.weightedLateTicks - than.weightedLateTicks ||
    plan.weightedReadyTicks - than.weightedReadyTicks ||
    plan.personTicks - than.personTicks
  return more < 0
}

export function scheduleFromDraft(problem: PreparedInstance, plan: FoundPlan): Schedule {
  const { draft } = plan
  return {
    activities: Array.from(draft.starts, (startTick, activity) => {
      const mode = draft.modes[activity]!
      const firstSlot = problem.slotFirst[activity]!
      return {
        activity,
        mode: mode - problem.modeFirst[activity]!,
        startTick,
        endTick: draft.ends[activity]!,
        lanes: Array.from(draft.lanes.subarray(firstSlot, firstSlot + problem.modeHands[mode]!)),
      }
    }),
    readyTicks: plan.readyTicks,
  }
}
