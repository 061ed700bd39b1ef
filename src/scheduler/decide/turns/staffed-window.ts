import type { LaneOnDuty } from '../../timeline/lanes-on-duty.ts'
import { staffedSeconds } from '../../timeline/staffed-time.ts'
import type { TurnInput } from '../../timeline/turn-input.ts'
import type { World } from '../../timeline/world.ts'
import { workFromAt } from '../plan/built-instance.ts'
import { stretchesNotClosed } from './stretches-not-closed.ts'

/** Time with somebody on duty between clear and doors while the room is not closed. */
export function staffedWindowSeconds(world: World, input: TurnInput, lanes: readonly LaneOnDuty[]): number {
  const window = { fromAt: workFromAt(world, input), toAt: input.dueAt }
  return stretchesNotClosed(world, input.room, window)
    .map((stretch) => staffedSeconds(lanes, stretch))
    .reduce((sum, seconds) => sum + seconds, 0)
}
