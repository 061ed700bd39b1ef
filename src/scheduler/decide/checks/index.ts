/**
 * Everything that can be said about a booking by itself, before any turn is looked at; one file each.
 * What speaks against a turn is found by judging it: see judge-turn.ts.
 */
import type { Booking } from '../../../domain/booking.ts'
import type { Reason } from '../../../domain/reason.ts'
import type { World } from '../../timeline/world.ts'
import { deviceHeld } from './device-held.ts'
import { equipmentUnavailable } from './equipment-unavailable.ts'
import { exitsTooFew } from './exits-too-few.ts'
import { headcountOverComputedLoad } from './headcount-over-computed-load.ts'
import { headcountOverPostedLimit } from './headcount-over-posted-limit.ts'
import { headcountOverSeats } from './headcount-over-seats.ts'
import { occupancyToCheck } from './occupancy-to-check.ts'
import { outsideOpeningHours } from './outside-opening-hours.ts'
import { roomClosed } from './room-closed.ts'
import { roomOccupied } from './room-occupied.ts'

const checks = [
  roomClosed,
  outsideOpeningHours,
  roomOccupied,
  headcountOverPostedLimit,
  headcountOverComputedLoad,
  exitsTooFew,
  headcountOverSeats,
  deviceHeld,
  equipmentUnavailable,
  occupancyToCheck,
]

/**
 * @returns in order of precedence; empty: the booking itself is in order. Not all of them keep it from being taken: see
 * `speaksAgainst`
 */
export const bookingReasons = (world: World, booking: Booking): Reason[] =>
  checks.flatMap((check) => check(world, booking))
