/** Crew and milestones lie near the booking, so that what is loaded to decide on it holds them. */
import type { Booking } from '../../domain/booking.ts'
import {
  CREW_AFTER_CLEAR_MOST_SECONDS,
  CREW_BEFORE_DOORS_MOST_SECONDS,
  CREW_LONGEST_SECONDS,
  MILESTONE_AWAY_MOST_SECONDS,
} from '../../domain/booking-terms.ts'
import { Instant, instantPlusSeconds } from '../../domain/instant.ts'
import { bodyFault, type Fault } from '../problems.ts'

export type Terms = Pick<Booking, 'doorsAt' | 'clearAt' | 'crewDemands' | 'milestones'>

export const termFaults = (terms: Terms): Fault[] => [
  ...terms.crewDemands.flatMap((demand, index) => crewFaults(terms, demand, `/crewDemands/${index}`)),
  ...terms.milestones.flatMap((_, index) => milestoneFaults(terms, index)),
]

const hours = (seconds: number): string => `${seconds / 3600} h`

function crewFaults(
  { doorsAt, clearAt }: Terms,
  demand: Booking['crewDemands'][number],
  at: string,
): Fault[] {
  const { fromAt, toAt } = demand
  const faults: Fault[] = []
  if (fromAt < instantPlusSeconds(doorsAt, -CREW_BEFORE_DOORS_MOST_SECONDS)) {
    const message = `crew is asked for from ${hours(CREW_BEFORE_DOORS_MOST_SECONDS)} before doors at the earliest`
    faults.push(bodyFault(`${at}/fromAt`, message))
  }
  if (toAt <= fromAt) faults.push(bodyFault(`${at}/toAt`, 'it must end after it begins'))
  if (toAt > instantPlusSeconds(fromAt, CREW_LONGEST_SECONDS)) {
    const message = `it may last ${hours(CREW_LONGEST_SECONDS)}; make several of it`
    faults.push(bodyFault(`${at}/toAt`, message))
  }
  if (toAt > instantPlusSeconds(clearAt, CREW_AFTER_CLEAR_MOST_SECONDS)) {
    const message = `crew is asked for until ${hours(CREW_AFTER_CLEAR_MOST_SECONDS)} after clear at the latest`
    faults.push(bodyFault(`${at}/toAt`, message))
  }
  return [...faults, ...yearFaults(`${at}/fromAt`, fromAt), ...yearFaults(`${at}/toAt`, toAt)]
}

type Side = 'before doors' | 'after clear'

/** null: while guests may be in the room. */
function sideOf({ doorsAt, clearAt }: Terms, byAt: Instant): Side | null {
  if (byAt <= doorsAt) return 'before doors'
  return byAt >= clearAt ? 'after clear' : null
}

function milestoneFaults(terms: Terms, index: number): Fault[] {
  const { milestone, byAt } = terms.milestones[index]!
  const at = `/milestones/${index}`
  const side = sideOf(terms, byAt)
  if (side === null) return [bodyFault(`${at}/byAt`, 'must be at or before doors, or at or after clear')]
  const faults = yearFaults(`${at}/byAt`, byAt)
  const away = side === 'before doors' ? terms.doorsAt - byAt : byAt - terms.clearAt
  if (away > MILESTONE_AWAY_MOST_SECONDS * 1000)
    faults.push(bodyFault(`${at}/byAt`, `may be ${hours(MILESTONE_AWAY_MOST_SECONDS)} ${side} at most`))
  const isAskedTwice = terms.milestones
    .slice(0, index)
    .some((earlier) => earlier.milestone === milestone && sideOf(terms, earlier.byAt) === side)
  if (isAskedTwice)
    faults.push(bodyFault(`${at}/milestone`, `${milestone} is asked for twice ${side}; ask for it once`))
  return faults
}

/** Moved along with the booking it may have left the years that are planned in. */
const yearFaults = (at: string, moment: Instant): Fault[] =>
  Instant.safeParse(moment).success ? [] : [bodyFault(at, 'outside the years 2000 to 2099')]
