/** Whether the event itself asks for more of the crew than is on duty all the time: then no plan can give it. */
import type { Booking } from '../../../domain/booking.ts'
import { covers } from '../../../domain/half-open-interval.ts'
import { type AroundAsked, lanesWith } from './around-asked.ts'

/** @param handsAssumed  count as crew without skills */
export const crewIsMissing = (around: AroundAsked, { crewDemands }: Booking, handsAssumed: number): boolean =>
  crewDemands.some((demand) => {
    const there = lanesWith(around, demand.skill).filter(({ onDuty }) =>
      onDuty.some((duty) => covers(duty, demand)),
    ).length
    return there + (demand.skill === null ? handsAssumed : 0) < demand.hands
  })
