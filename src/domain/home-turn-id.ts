/** A booking may have a second turn, which puts the room back after it: its id follows from that of the first. */
import { TurnId } from './ids.ts'

/** @param turnId  of the turn that prepares the booking */
export const homeTurnId = (turnId: TurnId): TurnId => TurnId.parse(`${turnId}-home`)
