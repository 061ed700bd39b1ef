/** The stored plan of a turn as a schedule of its instance as that is now. */
import type { Turn } from '../../domain/turn.ts'
import { scheduleOf } from '../decide/plan/plan-of.ts'
import { type Schedule, scheduleFaults } from '../turn/index.ts'
import type { Circumstances } from './circumstances.ts'

/** @returns null: there is none, or it does not hold any more */
export function standingSchedule({ built }: Circumstances, { plan }: Pick<Turn, 'plan'>): Schedule | null {
  const stored = plan && scheduleOf(built, [plan])
  return stored && scheduleFaults(built.instance, stored).length === 0 ? stored : null
}
