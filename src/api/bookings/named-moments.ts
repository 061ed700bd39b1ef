/** The moments that a body names, from text, with a fault for each that cannot be read. */
import type { Booking } from '../../domain/booking.ts'
import type { Instant } from '../../domain/instant.ts'
import type { Site } from '../../domain/site.ts'
import { InstantReader } from '../instant-text.ts'
import { refuseFaults } from '../problems.ts'
import { momentFields } from '../setup/moment-fields.ts'
import type { BookingPatch } from './booking-body.ts'

export interface NamedMoments {
  /** null where doors or clear shall follow the policy. */
  readonly boundaries: Partial<
    Pick<Booking, 'startsAt' | 'endsAt'> & Record<'doorsAt' | 'clearAt', Instant | null>
  >
  readonly terms: Partial<Pick<Booking, 'crewDemands' | 'milestones'>>
  /** null: no hold is named. */
  readonly holdExpiresAt: Instant | null
}

/** @throws Problem invalid-input with every moment that cannot be read */
export function namedMoments(site: Site, body: BookingPatch): NamedMoments {
  const reader = new InstantReader(site.zone, 'body')
  const { startsAt, endsAt } = momentFields(reader, body, ['startsAt', 'endsAt'])
  const named = {
    boundaries: {
      ...momentFields(reader, body, ['doorsAt', 'clearAt']),
      ...(startsAt ? { startsAt } : {}),
      ...(endsAt ? { endsAt } : {}),
    },
    terms: {
      ...(body.crewDemands ? { crewDemands: crewDemandsFrom(reader, body.crewDemands) } : {}),
      ...(body.milestones ? { milestones: milestonesFrom(reader, body.milestones) } : {}),
    },
    holdExpiresAt: body.hold ? reader.read('/hold/expiresAt', body.hold.expiresAt) : null,
  }
  refuseFaults(reader.faults)
  return named
}

const crewDemandsFrom = (reader: InstantReader, demands: NonNullable<BookingPatch['crewDemands']>) =>
  demands.flatMap((demand, index): Booking['crewDemands'] => {
    const fromAt = reader.read(`/crewDemands/${index}/fromAt`, demand.fromAt)
    const toAt = reader.read(`/crewDemands/${index}/toAt`, demand.toAt)
    return fromAt === null || toAt === null ? [] : [{ ...demand, fromAt, toAt }]
  })

const milestonesFrom = (reader: InstantReader, milestones: NonNullable<BookingPatch['milestones']>) =>
  milestones.flatMap(({ milestone, byAt: text }, index): Booking['milestones'] => {
    const byAt = reader.read(`/milestones/${index}/byAt`, text)
    return byAt === null ? [] : [{ milestone, byAt }]
  })
