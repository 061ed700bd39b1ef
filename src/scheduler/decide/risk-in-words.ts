/** What it is that nobody may take the risk of, as the end of a sentence: "… that the room is closed". */
import type { Reason, ReasonCode } from '../../domain/reason.ts'

const riskOfItself: Readonly<Partial<Record<ReasonCode, string>>> = {
  'room-closed': 'the room is closed',
  'room-occupied': 'the room is taken',
  'headcount-over-posted-limit': 'there are more people than the posted limit',
  'state-unreachable': 'a device cannot be brought to where it must be',
  'device-held': 'a device is held otherwise by who is there',
  'way-closed': 'a way or a store that the work needs is closed',
  'skill-missing': 'somebody grown up or qualified is missing',
}

/** @param reason  one that is not overridable; what has no words of its own would break a firm booking */
export const riskInWords = (reason: Reason): string =>
  riskOfItself[reason.code] ?? 'a firm booking would not be ready any more'
