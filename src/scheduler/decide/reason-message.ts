/** The sentence for a reason, written once. Times are by the wall clock of the site, spans in minutes. */
import type { Booking } from '../../domain/booking.ts'
import type { BookingId, LayoutId, RoomId } from '../../domain/ids.ts'
import { type Instant, secondsBetween } from '../../domain/instant.ts'
import type { Reason, TurnSide } from '../../domain/reason.ts'
import { layoutName, roomName } from '../../domain/setup-names.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { dayAndTimeOf } from '../timeline/wall-time.ts'
import { counted } from './counted.ts'

/** @param bookings  those that reasons may name by their title; one that is not among them is "another booking" */
export function reasonMessage(reason: Reason, setup: SiteSetup, bookings: readonly Booking[]): string {
  const time = (at: Instant) => dayAndTimeOf(at, setup.site.zone)
  const room = (id: RoomId) => roomName(setup, id)
  const layout = (id: LayoutId) => layoutName(setup, id)
  const title = (id: BookingId) => {
    const booking = bookings.find((one) => one.id === id)
    return booking ? `“${booking.title}”` : 'another booking'
  }
  switch (reason.code) {
    case 'room-closed':
      return `${room(reason.roomId)} is closed from ${time(reason.fromAt)} to ${time(reason.toAt)}: ${reason.why}.`
    case 'outside-opening-hours':
      return reason.opensAt === null || reason.closesAt === null
        ? `${room(reason.roomId)} is not open around that time.`
        : `${room(reason.roomId)} is open from ${time(reason.opensAt)} to ${time(reason.closesAt)}; doors and clear must lie within.`
    case 'room-occupied':
      return `${room(reason.roomId)} is taken from ${time(reason.fromAt)} to ${time(reason.toAt)} by ${title(reason.bookingId)}.`
    case 'headcount-over-posted-limit':
      return `${peopleAre(reason.headcount)} more than the posted limit of ${reason.occupantLimitPosted} for ${room(reason.roomId)}.`
    case 'headcount-over-seats':
      return `${peopleAre(reason.headcount)} more than the ${counted(reason.seats, 'seat')} of ${layout(reason.layoutId)}.`
    case 'way-closed':
      return `${listed(waysOf(reason, setup))} ${waysOf(reason, setup).length === 1 ? 'is' : 'are'} closed from ${time(reason.fromAt)} to ${time(reason.toAt)} (${reason.why}): ${turnNamed(reason.side)} cannot be done around that.`
    case 'tool-missing': {
      const tool = setup.tools.find(({ id }) => id === reason.toolId)
      return `No ${tool?.name ?? 'tool'} is there for ${turnNamed(reason.side)}: all that the site owns are out of service or lent out.`
    }
    case 'skill-missing':
      return reason.skill === 'adult'
        ? `No adult is free for long enough between ${time(reason.fromAt)} and ${time(reason.toAt)}, for ${turnNamed(reason.side)}.`
        : `Nobody who has the skill ${reason.skill} for all of ${time(reason.fromAt)} to ${time(reason.toAt)} is free for long enough, for ${turnNamed(reason.side)}.`
    case 'hands-short': {
      const more = reason.handsNeeded - reason.handsOnDuty
      return `${numbersSentence(reason, layout)} ${counted(reason.handsNeeded, 'hand')} would do it: ${more} more.`
    }
    case 'turn-before-too-long':
    case 'turn-after-too-long':
      return `${numbersSentence(reason, layout)} ${
        reason.proof === 'bound'
          ? `No number of hands up to ${reason.handsTried} can do it in time.`
          : `No plan was found in which up to ${counted(reason.handsTried, 'hand')} do it in time.`
      }`
    case 'another-turn-broken':
      return `The turn for ${title(reason.bookingId)}, doors ${time(reason.doorsAt)}, would ${
        reason.readyAt === null
          ? 'not be possible any more'
          : `only be ready at ${time(reason.readyAt)}, ${minutesUp(secondsBetween(reason.doorsAt, reason.readyAt))} min after doors`
      }.`
    case 'slack-under-policy':
      return `${capital(turnNamed(reason.side))} leaves ${minutesDown(reason.slackSeconds)} min to spare; the policy wants ${minutesUp(reason.slackWantedSeconds)}.`
    default:
      return reason satisfies never
  }
}

type WayClosed = Extract<Reason, { code: 'way-closed' }>

/** `the North store`, `the goods lift`. */
const waysOf = ({ storagePlaceIds, passageIds }: WayClosed, setup: SiteSetup): string[] =>
  [
    ...setup.storagePlaces.filter(({ id }) => storagePlaceIds.includes(id)),
    ...setup.passages.filter(({ id }) => passageIds.includes(id)),
  ].map(({ name }) => name)

function listed(names: readonly string[]): string {
  const last = names.at(-1) ?? 'A store or passage'
  return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} and ${last}`
}

/** Rounding to ticks and minutes is no waiting. */
const WAITING_SECONDS = 300

type TurnNumbers = Extract<Reason, { code: 'hands-short' | 'turn-before-too-long' | 'turn-after-too-long' }>

function numbersSentence(reason: TurnNumbers, layout: (id: LayoutId) => string): string {
  const turn = `${capital(turnNamed(reason.side))}, to ${layout(reason.toLayoutId)},`
  const { handsOnDuty } = reason
  const onDuty = handsOnDuty === 1 ? 'the one hand on duty' : `the ${handsOnDuty} hands on duty`
  if (handsOnDuty === 0 && reason.neededSeconds === null) return `${turn} cannot be done: nobody is on duty.`
  if (reason.neededSeconds === null || reason.shortSeconds === null) {
    return `${turn} cannot be done with ${onDuty}; there are ${minutesDown(reason.availableSeconds)} min.`
  }
  // Where hands come later or a way is closed, there are more minutes late than there is too much work.
  const isWaiting = reason.shortSeconds > reason.neededSeconds - reason.availableSeconds + WAITING_SECONDS
  if (reason.neededSeconds <= reason.availableSeconds || isWaiting) {
    return `${turn} would be ready ${minutesUp(reason.shortSeconds)} min after doors: it needs about ${minutesUp(reason.neededSeconds)} min, but not all of ${onDuty} are free when they are needed.`
  }
  return `${turn} needs about ${minutesUp(reason.neededSeconds)} min with ${onDuty}; there are ${minutesDown(reason.availableSeconds)}: ${minutesUp(reason.shortSeconds)} min short.`
}

const peopleAre = (count: number): string => (count === 1 ? '1 person is' : `${count} people are`)
const turnNamed = (side: TurnSide): string => (side === 'before' ? 'the turn before it' : 'the turn after it')
const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1)
/** Time needed is rounded up, time there is is rounded down. */
const minutesUp = (seconds: number): number => Math.ceil(seconds / 60)
const minutesDown = (seconds: number): number => Math.floor(seconds / 60)
