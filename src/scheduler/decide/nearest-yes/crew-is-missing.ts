/** Whether the event itself asks for more of the crew than is left to it by the events of others: then no plan can give it. */
import type { Booking } from '../../../domain/booking.ts'
import type { CrewDemand } from '../../../domain/booking-terms.ts'
import { covers } from '../../../domain/half-open-interval.ts'
import { type AroundAsked, lanesWith } from './around-asked.ts'
import { handsAt, lanesAt, momentsOf } from './duties-of-others.ts'

/** @param handsAssumed  count as crew without skills */
export const crewIsMissing = (around: AroundAsked, booking: Booking, handsAssumed: number): boolean =>
  booking.crewDemands.some(
    (demand) =>
      isNeverThere(around, demand, handsAssumed) || isTakenMeanwhile(around, booking, demand, handsAssumed),
  )

/** Fewer are there from the first to the last minute than it asks for. */
function isNeverThere(around: AroundAsked, demand: CrewDemand, handsAssumed: number): boolean {
  const there = lanesWith(around, demand.skill).filter(({ onDuty }) =>
    onDuty.some((duty) => covers(duty, demand)),
  ).length
  return there + assumedWith(demand.skill, handsAssumed) < demand.hands
}

/** At some moment of it, fewer are on duty than all events together ask for: of anybody, or of those with its skill. */
function isTakenMeanwhile(
  around: AroundAsked,
  { crewDemands }: Booking,
  demand: CrewDemand,
  handsAssumed: number,
): boolean {
  const all = [...around.duties, ...crewDemands]
  const skilled = all.filter(({ skill }) => skill === demand.skill)
  const begun = momentsOf([...all, ...around.lanes.flatMap(({ onDuty }) => onDuty)]).filter(
    (at) => at >= demand.fromAt && at < demand.toAt,
  )
  return begun.some(
    (at) =>
      handsAt(all, at) > lanesAt(around.lanes, at) + handsAssumed ||
      handsAt(skilled, at) >
        lanesAt(lanesWith(around, demand.skill), at) + assumedWith(demand.skill, handsAssumed),
  )
}

/** Those whom nobody has promised are grown up, and have no skill beside. */
const assumedWith = (skill: string | null, handsAssumed: number): number =>
  skill === null || skill === 'adult' ? handsAssumed : 0
