/** What a turn holds while the rest of it is planned anew: the hands and things of what runs, and those at its event. */
import type { Turn } from '../../domain/turn.ts'
import { isTurnWork } from '../decide/index.ts'
import type { RunningNow } from './running-now.ts'

/** The turn with only that in its plan. @param turn  with a plan */
export function heldMeanwhile(turn: Turn, running: readonly RunningNow[]): Turn {
  if (turn.plan === null) return turn
  const atEvent = turn.plan.tasks.filter((task) => !isTurnWork(task))
  const tasks = [...running.map(({ task }) => task), ...atEvent].sort((a, b) => a.startsAt - b.startsAt)
  return { ...turn, plan: { ...turn.plan, tasks } }
}
