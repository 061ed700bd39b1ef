/** What somebody waits for before doors and gets later than wanted, by the plan from now. */
import type { Instant } from '../../domain/instant.ts'
import type { Milestone } from '../../domain/task.ts'
import type { BuiltInstance } from '../decide/plan/built-instance.ts'
import { TICK_MS } from '../decide/plan/tick-grid.ts'
import { localTimeOf } from '../timeline/wall-time.ts'
import type { Schedule } from '../turn/index.ts'
import { shownBeside, spanText } from '../wording/shown-minutes.ts'
import type { ReplanWarning } from './replan-warnings.ts'

const words: Readonly<Record<Milestone, string>> = {
  'floor-clear': 'The floor is clear',
  'tables-up': 'The tables are up',
  'seats-up': 'The seats are up',
  'devices-ready': 'The devices are ready',
  'sound-checked': 'The sound is checked',
}

/** In order of when they are wanted. */
export function milestonesLate(
  { instance, parts, originAt }: BuiltInstance,
  { readyTicks }: Schedule,
  zone: string,
): ReplanWarning[] {
  return (parts[0]?.milestones ?? []).flatMap(({ milestone, byAt, turn }): ReplanWarning[] => {
    const tick = readyTicks[turn] ?? 0
    if (tick <= instance.turns[turn]!.dueTick) return []
    const { readyAt, lateMinutes } = shownBeside((originAt + tick * TICK_MS) as Instant, byAt)
    const at = `${words[milestone]} at ${localTimeOf(readyAt, zone)}`
    const message = `${at}, ${spanText(lateMinutes)} later than wanted, at ${localTimeOf(byAt, zone)}: tell who waits for it.`
    return [{ code: 'milestone-late', taskKey: null, laneIds: [], message }]
  })
}
