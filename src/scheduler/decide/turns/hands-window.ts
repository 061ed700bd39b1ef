/** When more hands could come for a turn: what is said to be enough, and what is offered, must be the same hands. */
import type { HalfOpenInterval } from '../../../domain/half-open-interval.ts'
import { type Instant, instantPlusSeconds, laterOf } from '../../../domain/instant.ts'
import type { TurnInput } from '../../timeline/turn-input.ts'
import type { World } from '../../timeline/world.ts'
import { upToFiveMinutes } from '../nearest-yes/five-minutes.ts'
import { workFromAt } from '../plan/built-instance.ts'

/** It takes so long to find somebody and for them to come: common practice, no source. */
const SOONEST_SECONDS = 900
/** Nobody is asked to be there longer before doors, however long the room is empty: common practice, no source. */
const BEFORE_DOORS_MOST_SECONDS = 8 * 3600

/** From when work may begin, and they can be there, until doors; null: it is too late for them. */
export function handsWindow(world: World, input: TurnInput): HalfOpenInterval | null {
  const fromAt = [
    workFromAt(world, input),
    instantPlusSeconds(input.dueAt, -BEFORE_DOORS_MOST_SECONDS),
    soonestHandsAt(world),
  ].reduce(laterOf)
  return fromAt < input.dueAt ? { fromAt, toAt: input.dueAt } : null
}

export const soonestHandsAt = ({ now }: Pick<World, 'now'>): Instant =>
  upToFiveMinutes(instantPlusSeconds(now, SOONEST_SECONDS))
