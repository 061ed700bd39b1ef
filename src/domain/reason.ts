/**
 * What can speak against a booking, or make it tight. A reason is data; its sentence is written in
 * scheduler/decide/reason-message.ts. The order of the union is the order of precedence.
 */
import { z } from 'zod'
import {
  DeviceHeld,
  DeviceLate,
  EquipmentUnavailable,
  ExitsTooFew,
  HeadcountOverComputedLoad,
  HeadcountOverPostedLimit,
  HeadcountOverSeats,
  OccupancyToCheck,
  OutsideOpeningHours,
  RoomClosed,
  RoomOccupied,
} from './reason-of-booking.ts'
import {
  AnotherTurnBroken,
  CrewDemandShort,
  HandsAssumed,
  HandsShort,
  MilestoneMissed,
  NoiseNextDoor,
  PaidHoursShort,
  SkillMissing,
  SlackUnderPolicy,
  StateUnreachable,
  ToolMissing,
  TurnAfterTooLong,
  TurnBeforeTooLong,
  WayClosed,
} from './reason-of-turn.ts'

export { HeldBack, Proof, TurnLacks, TurnSide } from './reason-of-turn.ts'

const inOrderOfPrecedence = [
  RoomClosed,
  OutsideOpeningHours,
  RoomOccupied,
  HeadcountOverPostedLimit,
  HeadcountOverComputedLoad,
  ExitsTooFew,
  HeadcountOverSeats,
  StateUnreachable,
  DeviceHeld,
  DeviceLate,
  EquipmentUnavailable,
  WayClosed,
  ToolMissing,
  SkillMissing,
  CrewDemandShort,
  PaidHoursShort,
  HandsShort,
  TurnBeforeTooLong,
  TurnAfterTooLong,
  MilestoneMissed,
  NoiseNextDoor,
  AnotherTurnBroken,
  SlackUnderPolicy,
  HandsAssumed,
  OccupancyToCheck,
] as const

/** These make it tight; any other means that it does not fit. */
const tightCodes: ReadonlySet<string> = new Set(['slack-under-policy', 'hands-assumed', 'occupancy-to-check'])

export const Reason = z.discriminatedUnion('code', inOrderOfPrecedence)
export type Reason = z.infer<typeof Reason>
export type ReasonCode = Reason['code']

/** Every code, the one that speaks first in front. */
export const reasonCodes: readonly ReasonCode[] = inOrderOfPrecedence.map((reason) => reason.shape.code.value)

const codesOfBooking: ReadonlySet<ReasonCode> = new Set<ReasonCode>([
  'room-closed',
  'outside-opening-hours',
  'room-occupied',
  'headcount-over-posted-limit',
  'headcount-over-computed-load',
  'exits-too-few',
  'headcount-over-seats',
  'device-held',
  'equipment-unavailable',
  'occupancy-to-check',
])

/** Whether it speaks of a booking by itself, whatever its turns are. */
export const isOfBooking = ({ code }: Pick<Reason, 'code'>): boolean => codesOfBooking.has(code)

/** Whether a reason alone keeps a booking from being taken. */
export const speaksAgainst = ({ code }: Pick<Reason, 'code'>): boolean => !tightCodes.has(code)
