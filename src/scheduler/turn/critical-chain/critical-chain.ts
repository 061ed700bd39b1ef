/** What explains when a turn is ready: one task after the other, and for each what its start waited for. */

import type { Schedule, ScheduledActivity, TurnInstance } from '../instance.ts'
import { type Bind, whatBinds } from './bind.ts'

export interface ChainStep {
  readonly activity: number
  readonly binds: Bind
}

/**
 * The chain ends with the activity of the turn that ends last. From there back, each waited for the one before, until
 * one starts for a reason that is no activity: its release, hands coming on duty or from plans that stand, something
 * that opens or comes back; or for no reason at all. There are no gaps in it but walks. Work of other turns can be in it.
 * @returns in order of time; empty for a turn without activities
 */
export function criticalChain(instance: TurnInstance, schedule: Schedule, turnIndex: number): ChainStep[] {
  let current: ScheduledActivity | null = null
  for (const planned of schedule.activities) {
    if (instance.activities[planned.activity]!.turn !== turnIndex) continue
    if (current === null || planned.endTick > current.endTick) current = planned
  }
  const chain: ChainStep[] = []
  const seen = new Set<number>()
  while (current !== null) {
    seen.add(current.activity)
    const binds = whatBinds(instance, schedule, current, seen)
    chain.push({ activity: current.activity, binds })
    const before: number | null = 'activity' in binds ? binds.activity : null
    current = before === null ? null : schedule.activities[before]!
  }
  return chain.reverse()
}
