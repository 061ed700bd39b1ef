/** Every pair of hands that a turn may count on: the crew on duty, the group that was there, and hands assumed. */

import { HELPERS_PER_LEAD } from '../../../domain/booking-terms.ts'
import type { HalfOpenInterval } from '../../../domain/half-open-interval.ts'
import { LaneId } from '../../../domain/ids.ts'
import type { LaneOnDuty } from '../../timeline/lanes-on-duty.ts'
import { rememberedLanes } from '../../timeline/remembered-lanes.ts'
import type { TurnInput } from '../../timeline/turn-input.ts'
import type { World } from '../../timeline/world.ts'

export const isAssumed = (laneId: LaneId): boolean => laneId.startsWith('assumed#')

/** @returns by lane id, the crew first */
export function lanesFor(
  world: World,
  inputs: readonly TurnInput[],
  span: HalfOpenInterval,
  handsAssumed: number,
): LaneOnDuty[] {
  const crew = rememberedLanes(world.setup, span)
  const helping = inputs.flatMap((input) => helperLanes(input, crew))
  const known = new Set<LaneId>()
  const helpers = helping.filter(({ laneId }) => !known.has(laneId) && known.add(laneId))
  return [...crew, ...helpers, ...assumedLanes(handsAssumed, span)]
}

/** No more of a group than the crew who is there when it begins can lead. */
function helperLanes({ asks }: TurnInput, crew: readonly LaneOnDuty[]): LaneOnDuty[] {
  return asks.helpers.flatMap(({ bookingId, hands, fromAt, toAt }) => {
    const leads = crew.filter(({ onDuty }) =>
      onDuty.some((duty) => duty.fromAt <= fromAt && fromAt < duty.toAt),
    ).length
    return Array.from({ length: Math.min(hands, leads * HELPERS_PER_LEAD) }, (_, index) => ({
      laneId: LaneId.parse(`${bookingId}#${index + 1}`),
      skills: [],
      adult: false,
      paid: false,
      crew: false,
      onDuty: [{ fromAt, toAt }],
    }))
  })
}

const assumedLanes = (hands: number, span: HalfOpenInterval): LaneOnDuty[] =>
  Array.from({ length: hands }, (_, index) => ({
    laneId: LaneId.parse(`assumed#${index + 1}`),
    skills: [],
    adult: true,
    paid: false,
    crew: true,
    onDuty: [span],
  }))
