/** The sentence for a reason, written once. Times are by the wall clock of the site. */
import type { Booking } from '../../domain/booking.ts'
import type { BookingId, EquipmentId, LayoutId, RoomId } from '../../domain/ids.ts'
import type { Instant } from '../../domain/instant.ts'
import type { Reason, TurnLacks } from '../../domain/reason.ts'
import { layoutName, roomName } from '../../domain/setup-names.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { Milestone } from '../../domain/task.ts'
import { dayAndTimeOf } from '../timeline/wall-time.ts'
import { counted } from '../wording/counted.ts'
import { listText } from '../wording/list-text.ts'
import { shownBeside, spanNeeded, spanText, spanThere } from '../wording/shown-minutes.ts'
import { capital, type Names, titlesText, turnNamed, turnNumbersSentence } from './turn-numbers-sentence.ts'

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
  const names: Names = { time, layout, title, device: (id) => uncapital(device(id, setup)) }
  switch (reason.code) {
    case 'room-closed':
      return `${room(reason.roomId)} is closed from ${time(reason.fromAt)} to ${time(reason.toAt)}: ${reason.why}.`
    case 'outside-opening-hours':
      return reason.opensAt === null || reason.closesAt === null
        ? `${room(reason.roomId)} is not open around that time.`
        : `${room(reason.roomId)} is open from ${time(reason.opensAt)} to ${time(reason.closesAt)}; doors and clear must lie within.`
    case 'room-occupied':
      return reason.clearAt === null
        ? `${room(reason.roomId)} is taken from ${time(reason.fromAt)} to ${time(reason.toAt)} by ${title(reason.bookingId)}.`
        : `${room(reason.roomId)} is taken from ${time(reason.fromAt)} to ${time(reason.clearAt)} by ${title(reason.bookingId)}, and kept as set until ${time(reason.toAt)}.`
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
    case 'device-held':
      return `${device(reason.equipmentId, setup)} would have to be ${spoken(reason.to)} for ${title(reason.forBookingId)}, and ${title(reason.bookingId)} has it ${spoken(reason.from)} in another room that it reaches into, from ${time(reason.fromAt)} to ${time(reason.toAt)}.`
    case 'device-late': {
      const gets =
        reason.movedAt !== null && reason.movedAt <= reason.doorsAt
          ? 'would only get to it when that booking is over'
          : `only gets to it at ${time(reason.movedAt ?? reason.doorsAt)}`
      const when = reason.movedAt === null ? 'has no plan' : gets
      return `${device(reason.equipmentId, setup)} is to be ${spoken(reason.to)} for ${title(reason.bookingId)}, doors ${time(reason.doorsAt)}, and the turn for ${title(reason.moverBookingId)} beside it, which sees to that, ${when}.`
    }
    case 'equipment-unavailable': {
      const until = reason.toAt === null ? 'until further notice' : `to ${time(reason.toAt)}`
      return `${device(reason.equipmentId, setup)}, which ${layout(reason.layoutId)} counts on, is out of service or lent out from ${time(reason.fromAt)} ${until}, and nothing stands in for it.`
    }
    case 'way-closed':
      return wayClosedSentence(reason, setup, names)
    case 'tool-missing': {
      const tool = setup.tools.find(({ id }) => id === reason.toolId)
      return `No ${tool?.name ?? 'tool'} is there for ${turnNamed(reason.side)}: all that the site owns are out of service or lent out.`
    }
    case 'skill-missing':
      return reason.skill === 'adult'
        ? `No adult is free for long enough between ${time(reason.fromAt)} and ${time(reason.toAt)}, for ${turnNamed(reason.side)}.`
        : `Nobody who has the skill ${reason.skill} for all of ${time(reason.fromAt)} to ${time(reason.toAt)} is free for long enough, for ${turnNamed(reason.side)}.`
    case 'crew-demand-short':
      return `${event(reason.bookingId)} needs ${counted(reason.handsNeeded, 'hand')} (${reason.what}) from ${time(reason.fromAt)} to ${time(reason.toAt)}: ${crewThereIs(reason, names)}`
    case 'paid-hours-short': {
      const more = reason.unpaidHandsNeeded
      const unpaid =
        more === null
          ? ''
          : ` ${counted(more, 'more hand that is', 'more hands that are')} not paid would do it too.`
      return `${capital(turnNamed(reason.side))}, to ${layout(reason.toLayoutId)}, needs about ${spanNeeded(reason.paidSecondsNeeded)} of paid work to be ready by doors; the policy pays for ${spanThere(reason.paidSecondsMost)} in one turn.${unpaid}`
    }
    case 'hands-short': {
      const more = reason.handsNeeded - reason.handsOnDuty
      const unpaid = reason.unpaid ? `, not paid` : ''
      return `${turnNumbersSentence(reason, names)} ${counted(reason.handsNeeded, 'hand')} would do it: ${more} more${unpaid}.`
    }
    case 'turn-before-too-long':
    case 'turn-after-too-long': {
      const sentence = turnNumbersSentence(reason, names)
      // No hands can begin while the guests are in.
      if (reason.guestsOutAt !== null) return sentence
      return `${sentence} ${
        reason.proof === 'bound'
          ? `No number of hands up to ${reason.handsTried} can do it in time.`
          : `No plan was found in which up to ${counted(reason.handsTried, 'hand')} do it in time.`
      }`
    }
    case 'milestone-missed':
      return reason.bookingId === null
        ? `In ${turnNamed(reason.side)}, ${milestoneSentence(reason, time)}`
        : milestoneOfNobody(reason, title(reason.bookingId), time)
    case 'noise-next-door': {
      const { noise } = reason
      const where =
        noise === null
          ? 'in a room that it hears noisy work is planned then'
          : `in ${room(noise.roomId)}, which it hears, noisy work for ${title(noise.bookingId)} is planned from ${time(noise.fromAt)} to ${time(noise.toAt)}. It begins with: ${noise.task}`
      return `${event(reason.bookingId)} needs quiet from ${time(reason.fromAt)} to ${time(reason.toAt)}, and ${where}.`
    }
    case 'another-turn-broken':
      return anotherTurnSentence(reason, names)
    case 'slack-under-policy':
      return `${capital(turnNamed(reason.side))} leaves ${spanThere(reason.slackSeconds)} to spare; the policy wants ${spanNeeded(reason.slackWantedSeconds)}.`
    case 'hands-assumed':
      return `${capital(turnNamed(reason.side))} counts on ${counted(reason.handsAssumed, 'hand')} that nobody has promised, from ${time(reason.fromAt)} to ${time(reason.toAt)}.`
    case 'occupancy-to-check':
      return `${peopleAre(reason.headcount)} within the posted limit of ${room(reason.roomId)}, but more than the ${reason.occupantLoadComputed} that its floor holds as ${layout(reason.layoutId)} by ${reason.source}. Ask the fire authority whether the limit is meant for this use.`
    default:
      return reason satisfies never
  }
}

type CrewDemandShort = Extract<Reason, { code: 'crew-demand-short' }>

/** How many there are, how many of them are free, and what the others are at. */
function crewThereIs(
  { handsNeeded, handsOnDuty, handsFree, heldFor, skill, paidSecondsMost }: CrewDemandShort,
  { title }: Names,
): string {
  if (paidSecondsMost !== null)
    return `the policy pays for no more than ${spanThere(paidSecondsMost)} in one turn.`
  const having = skill === null ? '' : ` with the skill ${skill}`
  if (handsOnDuty === null || handsFree === null || handsFree >= handsNeeded)
    return `not enough of the crew${having} is free then.`
  const more = handsNeeded - handsFree
  const short = `${handsFree === 0 ? 'none' : handsFree} ${handsFree > 1 ? 'are' : 'is'} free, ${more} more ${more === 1 ? 'is' : 'are'} needed.`
  if (handsOnDuty === 0) return `nobody${having} is on duty for all of that time; ${short}`
  const held = handsOnDuty - handsFree
  const onDuty = `${handsOnDuty === 1 ? 'the one hand' : `the ${handsOnDuty} hands`}${having} on duty`
  if (held === 0) return `${onDuty} ${handsOnDuty === 1 ? 'is' : 'are'} not enough; ${short}`
  const whose = heldFor.length === 0 ? '' : ` for ${titlesText(heldFor, title)}`
  const whoIs = handsOnDuty === 1 ? `${onDuty} is` : `${held} of ${onDuty} ${held === 1 ? 'is' : 'are'}`
  return `${whoIs} at work${whose}; ${short}`
}

type AnotherTurnBroken = Extract<Reason, { code: 'another-turn-broken' }>

const wantOf: Readonly<Partial<Record<TurnLacks, string>>> = {
  hands: ', for want of hands',
  'paid-hours': ', for want of paid time',
  skill: ', for want of somebody with the skill',
  tool: ', for want of tools',
  way: ', because a way is closed',
}

function anotherTurnSentence(
  { bookingId, doorsAt, readyAt, lacks }: AnotherTurnBroken,
  { time, title }: Names,
): string {
  const turn = `The turn for ${title(bookingId)}, doors ${time(doorsAt)},`
  if (lacks === 'milestone') return `${turn} would not reach in time what it is to reach before doors.`
  if (lacks === 'event-crew')
    return `${title(bookingId)}, doors ${time(doorsAt)}, would not have the crew that it needs.`
  if (lacks === 'quiet')
    return `${title(bookingId)}, doors ${time(doorsAt)}, would not have the quiet that it needs.`
  const want = (lacks && wantOf[lacks]) ?? ''
  if (readyAt === null) return `${turn} would not be possible any more${want}.`
  const shown = shownBeside(readyAt, doorsAt)
  if (shown.lateMinutes <= 0) return `${turn} would not be possible any more${want}.`
  return `${turn} would only be ready at ${time(shown.readyAt)}, ${spanText(shown.lateMinutes)} after doors${want}.`
}

type WayClosed = Extract<Reason, { code: 'way-closed' }>

/** What is closed, for how much of the gap, and what is still possible. */
function wayClosedSentence(reason: WayClosed, setup: SiteSetup, { time }: Names): string {
  const { fromAt, toAt, why, side, closedSeconds, doorsAt, readyAt } = reason
  const ways = waysOf(reason, setup)
  const are = ways.length > 1 ? 'are' : 'is'
  const closed = `${capital(listText(ways)) || 'A store or passage'} ${are} closed from ${time(fromAt)} to ${time(toAt)} (${why})`
  const turn = turnNamed(side)
  if (closedSeconds === null || doorsAt === null) return `${closed}: ${turn} cannot be done around that.`
  const forSoLong = `${closed}, for ${spanNeeded(closedSeconds)} of the time before doors`
  if (readyAt === null) return `${forSoLong}: ${turn} cannot be done around that.`
  const shown = shownBeside(readyAt, doorsAt)
  return `${forSoLong}: around that, ${turn} would only be ready at ${time(shown.readyAt)}, ${spanText(shown.lateMinutes)} after doors.`
}

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

const uncapital = (text: string): string => text.slice(0, 1).toLowerCase() + text.slice(1)

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
  const shown = reachedAt === null ? null : shownBeside(reachedAt, byAt)
  const reached =
    shown === null
      ? `never be ${how}`
      : `be ${how} at ${time(shown.readyAt)}, ${spanText(shown.lateMinutes)} late`
  const found = proof === 'none-found' ? 'No plan was found that is in time.' : 'No plan can be in time.'
  return `${what} would ${reached}: ${itIs} to be ${how} by ${time(byAt)}. ${found}`
}

/** The next booking there, or putting the room back, would have been the work that reaches it. */
function milestoneOfNobody(
  { milestone, byAt }: MilestoneMissed,
  title: string,
  time: (at: Instant) => string,
): string {
  const [what, how] = milestoneWords[milestone]
  const verb = what === 'the floor' || what === 'the sound' ? 'is' : 'are'
  return `After ${title} ${what} ${verb} to be ${how} by ${time(byAt)}, and nobody turns that room any more: book what comes next, let the policy put the room back into its home layout, or take the milestone out.`
}

const peopleAre = (count: number): string => counted(count, 'person is', 'people are')
