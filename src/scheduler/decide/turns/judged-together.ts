import type { Operation } from '../../../domain/operation.ts'
import type { Turn } from '../../../domain/turn.ts'
import type { WorldAfter } from '../operations/world-after.ts'
import { type JudgedTurns, judgeTurns } from './judge-turns.ts'
import type { JudgeOptions } from './judged-turn.ts'
import { plannedTogether } from './planned-together.ts'
import { withDevicesMoved } from './with-devices-moved.ts'

/** Each touched turn with the hands the others leave, and where that does not suffice together with its neighbours. */
export function judgedTogether(
  after: WorldAfter,
  turnsStored: readonly Turn[],
  operations: readonly Operation[],
  options: JudgeOptions = {},
): JudgedTurns {
  const judged = judgeTurns(after, turnsStored, operations, options)
  const together = plannedTogether(after, turnsStored, operations, judged, options) ?? judged
  return withDevicesMoved(after, turnsStored, together, options)
}
