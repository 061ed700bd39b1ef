/** What a turn would take and what there is, in a sentence: for those reasons that are about time and hands. */
import type { BookingId, EquipmentId, LayoutId } from '../../domain/ids.ts'
import type { Instant } from '../../domain/instant.ts'
import type { HeldBack, Reason, TurnSide } from '../../domain/reason.ts'
import { listText, someText } from '../wording/list-text.ts'
import {
  minutesDown,
  minutesUp,
  shownBeside,
  spanNeeded,
  spanText,
  spanThere,
} from '../wording/shown-minutes.ts'

export type TurnNumbers = Extract<
  Reason,
  { code: 'paid-hours-short' | 'hands-short' | 'turn-before-too-long' | 'turn-after-too-long' }
>

/** How things are called, and moments by the wall clock of the site. */
export interface Names {
  readonly time: (at: Instant) => string
  readonly layout: (id: LayoutId) => string
  readonly title: (id: BookingId) => string
  /** `the movable wall` */
  readonly device: (id: EquipmentId) => string
}

export const turnNamed = (side: TurnSide): string =>
  side === 'before' ? 'the turn before it' : 'the turn after it'
export const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1)

/** So many are named, and how many more there are. */
const TITLES_MOST = 2
/** `“Supper” and “Quiz”`; those that are not known are other bookings, and told once. */
export const titlesText = (ids: readonly BookingId[], title: Names['title']): string =>
  someText([...new Set(ids.map(title))], TITLES_MOST)

/** Rounding to ticks and minutes is no waiting. */
const WAITING_SECONDS = 300

export function turnNumbersSentence(reason: TurnNumbers, names: Names): string {
  const turn = `${capital(turnNamed(reason.side))}, to ${names.layout(reason.toLayoutId)},`
  const { neededSeconds, availableSeconds, readyAt, shortSeconds, doorsAt, guestsOutAt } = reason
  if (guestsOutAt !== null) return guestsSentence(turn, guestsOutAt, reason, names)
  if (reason.heldBack.length > 0) return heldBackSentence(turn, reason, names)
  const onDuty = handsText(reason)
  const noDuty = reason.handsOnDuty === 0
  if (noDuty && neededSeconds === null) return `${turn} cannot be done: nobody is on duty.`
  const held = heldText(reason, names)
    .map((words) => `, ${words}`)
    .join('')
  if (neededSeconds === null || readyAt === null || shortSeconds === null) {
    return `${turn} cannot be done with ${onDuty}${held}; there ${areMinutes(availableSeconds)}.`
  }
  const { lateMinutes } = shownBeside(readyAt, doorsAt)
  const late = spanText(lateMinutes)
  const needed = spanNeeded(neededSeconds)
  if (noDuty) {
    return `${turn} has no time before doors with anybody on duty: it needs about ${needed} and would be ready ${late} after doors.`
  }
  // Where hands come later or a way is closed, there are more minutes late than there is too much work.
  const isWaiting = shortSeconds > neededSeconds - availableSeconds + WAITING_SECONDS
  if (neededSeconds <= availableSeconds || isWaiting) {
    return `${turn} would be ready ${late} after doors: it needs about ${needed}, but ${notFree(reason, names)}.`
  }
  // What is short is the difference of what is said, where only rounding has it otherwise.
  const difference = minutesUp(neededSeconds) - minutesDown(availableSeconds)
  const short = Math.abs(difference - lateMinutes) <= 1 ? difference : lateMinutes
  return `${turn} needs about ${needed} with ${onDuty}${held}; there ${areMinutes(availableSeconds)}: ${spanText(short)} short.`
}

/** Nobody has to be looked for: the room is not empty. */
function guestsSentence(
  turn: string,
  guestsOutAt: Instant,
  { neededSeconds, readyAt, doorsAt }: TurnNumbers,
  { time }: Names,
): string {
  const guests = `${turn} cannot begin before doors: guests are in until ${time(guestsOutAt)}, doors are ${time(doorsAt)}.`
  if (neededSeconds === null || readyAt === null) return guests
  const shown = shownBeside(readyAt, doorsAt)
  return `${guests} It needs about ${spanNeeded(neededSeconds)} and would be ready at ${time(shown.readyAt)}, ${spanText(shown.lateMinutes)} after doors.`
}

/** Nobody has to be looked for: whoever is there has to wait. */
function heldBackSentence(
  turn: string,
  { neededSeconds, readyAt, doorsAt, heldBack }: TurnNumbers,
  names: Names,
): string {
  const why = listText(heldBack.map((one) => heldBackText(one, names)))
  if (neededSeconds === null || readyAt === null) return `${turn} cannot be done: ${why}.`
  const late = spanText(shownBeside(readyAt, doorsAt).lateMinutes)
  return `${turn} would be ready ${late} after doors: it needs about ${spanNeeded(neededSeconds)}, and ${why}.`
}

function heldBackText(held: HeldBack, { time, title, device }: Names): string {
  if (held.kind === 'quiet')
    return `there is to be quiet for ${title(held.bookingId)} until ${time(held.untilAt)}`
  const who = held.bookingId === null ? 'the other room' : title(held.bookingId)
  const out = held.bookingId === null ? 'is clear' : 'is out'
  return `${device(held.equipmentId)} may only be moved once ${who} ${out} at ${time(held.untilAt)}`
}

/** `the 6 hands on duty`, and `the 4 helpers of the group` where there are some. */
function handsText({ handsOnDuty, helpers }: TurnNumbers): string {
  const onDuty = handsOnDuty === 1 ? 'the one hand on duty' : `the ${handsOnDuty} hands on duty`
  if (helpers === 0) return onDuty
  return `${onDuty} and ${helpers === 1 ? 'the one helper' : `the ${helpers} helpers`} of the group`
}

/** `up to 3 of them at work for “Supper”`; none where all are free. */
function heldText({ handsOnDuty, handsHeld, heldFor }: TurnNumbers, { title }: Names): string[] {
  if (handsHeld === 0 || handsOnDuty === 0) return []
  const whose = heldFor.length === 0 ? 'elsewhere' : `for ${titlesText(heldFor, title)}`
  return [
    `${handsOnDuty === 1 ? 'at times' : `up to ${Math.min(handsHeld, handsOnDuty)} of them`} at work ${whose}`,
  ]
}

function notFree(reason: TurnNumbers, names: Names): string {
  const held = heldText(reason, names)
    .map((words) => `, ${words}`)
    .join('')
  if (reason.handsOnDuty + reason.helpers === 1)
    return `${handsText(reason)} is not free when it is needed${held}`
  return `not all of ${handsText(reason)} are free when they are needed${held}`
}

/** `is 1 min`, `are 3 h 20 min` */
const areMinutes = (seconds: number): string =>
  `${minutesDown(seconds) === 1 ? 'is' : 'are'} ${spanThere(seconds)}`
