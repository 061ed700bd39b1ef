/** What can speak against a booking by itself, before any turn is looked at. */
import { z } from 'zod'
import { BookingId, ClosureId, EquipmentId, LayoutId, RoomId } from './ids.ts'
import { Instant } from './instant.ts'

const ofBooking = BookingId.nullable()
  .default(null)
  .meta({ description: 'Of which booking it is said; null: not told' })

export const RoomClosed = z.object({
  code: z.literal('room-closed'),
  bookingId: ofBooking,
  roomId: RoomId,
  closureId: ClosureId,
  fromAt: Instant,
  toAt: Instant,
  why: z.string(),
})
/** The booking is not within one stretch of opening hours; the stretch nearest to it is given, where there is one. */
export const OutsideOpeningHours = z.object({
  code: z.literal('outside-opening-hours'),
  bookingId: ofBooking,
  roomId: RoomId,
  opensAt: Instant.nullable(),
  closesAt: Instant.nullable(),
})
export const RoomOccupied = z.object({
  code: z.literal('room-occupied'),
  roomId: RoomId,
  bookingId: BookingId,
  fromAt: Instant,
  toAt: Instant,
  clearAt: Instant.nullable()
    .default(null)
    .meta({ description: 'From then on it is only kept as set for what is linked; null: it is not' }),
})
export const HeadcountOverPostedLimit = z.object({
  code: z.literal('headcount-over-posted-limit'),
  bookingId: ofBooking,
  roomId: RoomId,
  headcount: z.int(),
  occupantLimitPosted: z.int(),
})
/** No limit is posted; the published table of the site allows fewer on this floor with this layout. */
export const HeadcountOverComputedLoad = z.object({
  code: z.literal('headcount-over-computed-load'),
  bookingId: ofBooking,
  roomId: RoomId,
  layoutId: LayoutId,
  headcount: z.int(),
  occupantLoadComputed: z.int(),
  source: z.string(),
})
/** Exits that are open for all of the booking, against those that the published table of the site asks for. */
export const ExitsTooFew = z.object({
  code: z.literal('exits-too-few'),
  bookingId: ofBooking,
  roomId: RoomId,
  headcount: z.int(),
  exitsOpen: z.int(),
  exitsNeeded: z.int(),
  source: z.string(),
})
export const HeadcountOverSeats = z.object({
  code: z.literal('headcount-over-seats'),
  bookingId: ofBooking,
  layoutId: LayoutId,
  headcount: z.int(),
  seats: z.int(),
}) /**
 * A device that reaches from one room into another is wanted otherwise than a booking in the other room has it, which
 * began before and is still there at the doors of this one.
 */
export const DeviceHeld = z.object({
  code: z.literal('device-held'),
  equipmentId: EquipmentId,
  bookingId: BookingId,
  /** By whom it is wanted otherwise. */
  forBookingId: BookingId,
  /** As it is, and as it is wanted. */
  from: z.string(),
  to: z.string(),
  fromAt: Instant,
  toAt: Instant,
})
/**
 * A device that reaches from one room into another is brought there by the turn for a booking in the other room, and that
 * turn is late.
 */
export const DeviceLate = z.object({
  code: z.literal('device-late'),
  equipmentId: EquipmentId,
  bookingId: BookingId,
  /** Whose turn moves it. */
  moverBookingId: BookingId,
  /** As it is wanted. */
  to: z.string(),
  doorsAt: Instant,
  /** null: that turn has no plan. */
  movedAt: Instant.nullable(),
})
/** A device that the layout counts on is out of service or lent out, and nothing can do its work. */
export const EquipmentUnavailable = z.object({
  code: z.literal('equipment-unavailable'),
  bookingId: ofBooking,
  equipmentId: EquipmentId,
  layoutId: LayoutId,
  fromAt: Instant,
  toAt: Instant.nullable(),
})
/** The posted limit allows it, the published table of the site would not. */
export const OccupancyToCheck = z.object({
  code: z.literal('occupancy-to-check'),
  bookingId: ofBooking,
  roomId: RoomId,
  layoutId: LayoutId,
  headcount: z.int(),
  occupantLoadComputed: z.int(),
  source: z.string(),
})
