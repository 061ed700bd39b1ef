/** The sentence for a reason, written once. Times are by the wall clock of the site, spans in minutes. */
import type { Booking } from '../../domain/booking.ts'
import type { BookingId, EquipmentId, LayoutId, RoomId } from '../../domain/ids.ts'
import { type Instant, secondsBetween } from '../../domain/instant.ts'
import type { Reason, TurnSide } from '../../domain/reason.ts'
import { layoutName, roomName } from '../../domain/setup-names.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { Milestone } from '../../domain/task.ts'
import { dayAndTimeOf } from '../timeline/wall-time.ts'
import { counted } from '../wording/counted.ts'
import { listText } from '../wording/list-text.ts'

/** @param bookings  those that reasons may name by their title; one that is not among them is "another booking" */
export function reasonMessage(reason: Reason, setup: SiteSetup, bookings: readonly Booking[]): string {
  const time = (at: Instant) => dayAndTimeOf(at, setup.site.zone)
  const room = (id: RoomId) => roomName(setup, id)
  const layout = (id: LayoutId) => layoutName(setup, id)
  const title = (id: BookingId) => {
    const booking = bookings.find((one) => one.id === id)
    return booking ? `“${booking.title}”` : 'another booking'
  }
  const event = (id: BookingId) => {
    const booking = bookings.find((one) => one.id === id)
    return booking ? `The event “${booking.title}”` : 'The event'
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
    case 'headcount-over-computed-load':
      return `${peopleAre(reason.headcount)} more than the ${reason.occupantLoadComputed} that ${room(reason.roomId)} holds as ${layout(reason.layoutId)}. No limit is posted: the number is computed from its floor by ${reason.source}. Ask the fire authority how many may be in, and enter that limit.`
    case 'exits-too-few':
      return `${counted(reason.headcount, 'person needs', 'people need')} ${counted(reason.exitsNeeded, 'exit')} by ${reason.source}; ${room(reason.roomId)} has ${exitsThatCount(reason.exitsOpen)} wide enough and open from doors to clear. Keep more of them open, or ask the fire authority how many may be in.`
    case 'headcount-over-seats':
      return `${peopleAre(reason.headcount)} more than the ${counted(reason.seats, 'seat')} of ${layout(reason.layoutId)}.`
    case 'state-unreachable':
      return `${device(reason.equipmentId, setup)} cannot be brought from ${spoken(reason.from)} to ${spoken(reason.to)}, which ${turnNamed(reason.side)} needs: say in the set-up how it gets there, or ask something else of it in the layout.`
    case 'equipment-unavailable': {
      const until = reason.toAt === null ? 'until further notice' : `to ${time(reason.toAt)}`
      return `${device(reason.equipmentId, setup)}, which ${layout(reason.layoutId)} counts on, is out of service or lent out from ${time(reason.fromAt)} ${until}, and nothing stands in for it.`
    }
    case 'way-closed':
      return `${listText(waysOf(reason, setup)) || 'A store or passage'} ${waysOf(reason, setup).length === 1 ? 'is' : 'are'} closed from ${time(reason.fromAt)} to ${time(reason.toAt)} (${reason.why}): ${turnNamed(reason.side)} cannot be done around that.`
    case 'tool-missing': {
      const tool = setup.tools.find(({ id }) => id === reason.toolId)
      return `No ${tool?.name ?? 'tool'} is there for ${turnNamed(reason.side)}: all that the site owns are out of service or lent out.`
    }
    case 'skill-missing':
      return reason.skill === 'adult'
        ? `No adult is free for long enough between ${time(reason.fromAt)} and ${time(reason.toAt)}, for ${turnNamed(reason.side)}.`
        : `Nobody who has the skill ${reason.skill} for all of ${time(reason.fromAt)} to ${time(reason.toAt)} is free for long enough, for ${turnNamed(reason.side)}.`
    case 'crew-demand-short': {
      const crew = reason.skill === null ? 'the crew' : `the crew with the skill ${reason.skill}`
      return `${event(reason.bookingId)} needs ${counted(reason.handsNeeded, 'hand')} (${reason.what}) from ${time(reason.fromAt)} to ${time(reason.toAt)}: not enough of ${crew} is free then.`
    }
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
    case 'milestone-missed':
      return `In ${turnNamed(reason.side)}, ${milestoneSentence(reason, time)}`
    case 'noise-next-door':
      return `${event(reason.bookingId)} needs quiet from ${time(reason.fromAt)} to ${time(reason.toAt)}, and in a room that it hears noisy work is planned then.`
    case 'another-turn-broken':
      return `The turn for ${title(reason.bookingId)}, doors ${time(reason.doorsAt)}, would ${
        reason.readyAt === null
          ? 'not be possible any more'
          : `only be ready at ${time(reason.readyAt)}, ${minutesUp(secondsBetween(reason.doorsAt, reason.readyAt))} min after doors`
      }.`
    case 'slack-under-policy':
      return `${capital(turnNamed(reason.side))} leaves ${minutesDown(reason.slackSeconds)} min to spare; the policy wants ${minutesUp(reason.slackWantedSeconds)}.`
    case 'hands-assumed':
      return `${capital(turnNamed(reason.side))} counts on ${counted(reason.handsAssumed, 'hand')} that nobody has promised, from ${time(reason.fromAt)} to ${time(reason.toAt)}.`
    case 'occupancy-to-check':
      return `${peopleAre(reason.headcount)} within the posted limit of ${room(reason.roomId)}, but more than the ${reason.occupantLoadComputed} that its floor holds as ${layout(reason.layoutId)} by ${reason.source}. Ask the fire authority whether the limit is meant for this use.`
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

function device(id: EquipmentId, { equipment, retired }: SiteSetup): string {
  const known = [...equipment, ...retired.equipment].find((one) => one.id === id)
  return known ? `The ${known.name}` : 'A device'
}

/** As tasks say it: `game input` for `game-input`. */
const spoken = (state: string): string => state.replaceAll('-', ' ')

/** `none that is`, `1 that is`, `2 that are`. */
const exitsThatCount = (count: number): string =>
  count === 0 ? 'none that is' : counted(count, 'that is', 'that are')

type MilestoneMissed = Extract<Reason, { code: 'milestone-missed' }>

/** What there is to be, how it is to be, and the word for it. */
const milestoneWords: Readonly<Record<Milestone, readonly [what: string, how: string, itIs: string]>> = {
  'floor-clear': ['the floor', 'clear', 'it is'],
  'tables-up': ['tables', 'up', 'they are'],
  'seats-up': ['seats', 'up', 'they are'],
  'devices-ready': ['devices', 'ready', 'they are'],
  'sound-checked': ['the sound', 'checked', 'it is'],
}

function milestoneSentence(
  { milestone, byAt, reachedAt, proof }: MilestoneMissed,
  time: (at: Instant) => string,
): string {
  const [what, how, itIs] = milestoneWords[milestone]
  const reached =
    reachedAt === null
      ? `never be ${how}`
      : `be ${how} at ${time(reachedAt)}, ${minutesUp(secondsBetween(byAt, reachedAt))} min late`
  const found = proof === 'none-found' ? 'No plan was found that is in time.' : 'No plan can be in time.'
  return `${what} would ${reached}: ${itIs} to be ${how} by ${time(byAt)}. ${found}`
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
  if (handsOnDuty === 0) {
    return `${turn} has no time before doors with anybody on duty: it needs about ${minutesUp(reason.neededSeconds)} min and would be ready ${minutesUp(reason.shortSeconds)} min after doors.`
  }
  // Where hands come later or a way is closed, there are more minutes late than there is too much work.
  const isWaiting = reason.shortSeconds > reason.neededSeconds - reason.availableSeconds + WAITING_SECONDS
  if (reason.neededSeconds <= reason.availableSeconds || isWaiting) {
    return `${turn} would be ready ${minutesUp(reason.shortSeconds)} min after doors: it needs about ${minutesUp(reason.neededSeconds)} min, but not all of ${onDuty} are free when they are needed.`
  }
  return `${turn} needs about ${minutesUp(reason.neededSeconds)} min with ${onDuty}; there are ${minutesDown(reason.availableSeconds)}: ${minutesUp(reason.shortSeconds)} min short.`
}

const peopleAre = (count: number): string => counted(count, 'person is', 'people are')
const turnNamed = (side: TurnSide): string => (side === 'before' ? 'the turn before it' : 'the turn after it')
const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1)
/** Time needed is rounded up, time there is is rounded down. */
const minutesUp = (seconds: number): number => Math.ceil(seconds / 60)
const minutesDown = (seconds: number): number => Math.floor(seconds / 60)
