/**
 * Everything that can speak against a booking by itself, before any turn is looked at; one file each.
 * What speaks against a turn is found by judging it: see judge-turn.ts.
 */
import type { Booking } from '../../../domain/booking.ts'
import type { Reason } from '../../../domain/reason.ts'
import type { World } from '../../timeline/world.ts'
import { headcountOverPostedLimit } from './headcount-over-posted-limit.ts'
import { headcountOverSeats } from './headcount-over-seats.ts'
import { outsideOpeningHours } from './outside-opening-hours.ts'
import { roomClosed } from './room-closed.ts'
import { roomOccupied } from './room-occupied.ts'

const checks = [roomClosed, outsideOpeningHours, roomOccupied, headcountOverPostedLimit, headcountOverSeats]

/** @returns in order of precedence; empty: nothing speaks against the booking itself */
export const bookingReasons = (world: World, booking: Booking): Reason[] =>
  checks.flatMap((check) => check(world, booking))
