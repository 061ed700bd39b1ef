/** What the event itself asks for and cannot have at its time: crew, or quiet; and who has it. */
import type { CrewDemand } from '../../../domain/booking-terms.ts'
import { type HalfOpenInterval, overlaps } from '../../../domain/half-open-interval.ts'
import type { LaneId, RoomId } from '../../../domain/ids.ts'
import { instantPlusSeconds, laterOf } from '../../../domain/instant.ts'
import type { Reason } from '../../../domain/reason.ts'
import type { Turn } from '../../../domain/turn.ts'
import type { World } from '../../timeline/world.ts'
import { isAssumed } from '../plan/lanes-for.ts'
import { type HeldLane, reservationsOf } from '../plan/reservations.ts'
import type { FoundPart } from './found-part.ts'
import { bookingsByTime } from './hands-held.ts'
import { isCapped } from './paid-hours-short.ts'

export function eventReasons(world: World, found: FoundPart): Reason[] {
  const { eventsImpossible, part, others } = found
  const { booking, room } = part.input
  return eventsImpossible.map(({ demand, fromAt, toAt }): Reason => {
    const span = { fromAt, toAt }
    if (demand === null) {
      const noise = noiseIn(others, `quiet:${room.id}`, span)
      return { code: 'noise-next-door', bookingId: booking.id, ...span, noise }
    }
    const { what, hands, skill } = demand
    const crew = crewFor(world, found, demand, span)
    return {
      code: 'crew-demand-short',
      bookingId: booking.id,
      what,
      ...span,
      handsNeeded: hands,
      skill,
      ...crew,
    }
  })
}

type NoiseNextDoor = Extract<Reason, { code: 'noise-next-door' }>

/** The first work in the span that takes of the quiet; null: none is known. */
function noiseIn(others: readonly Turn[], key: string, span: HalfOpenInterval): NoiseNextDoor['noise'] {
  const noisy = others.flatMap(({ bookingId, roomId, plan }) =>
    (plan?.tasks ?? [])
      .filter(({ startsAt, endsAt }) => overlaps({ fromAt: startsAt, toAt: endsAt }, span))
      .filter(({ uses }) => uses.some(({ resource }) => resource === key))
      .map((task) => ({ bookingId, roomId, task })),
  )
  noisy.sort((a, b) => a.task.startsAt - b.task.startsAt || (a.task.key < b.task.key ? -1 : 1))
  const [first] = noisy
  if (!first) return null
  const { bookingId, roomId, task } = first
  const untilAt = noisy
    .filter((one) => one.bookingId === bookingId)
    .map((one) => one.task.endsAt)
    .reduce(laterOf)
  return { bookingId, roomId, fromAt: task.startsAt, toAt: untilAt, task: firstSentence(task.text) }
}

/** Of what a task says, what is done. */
const firstSentence = (text: string): string => (text.split('. ')[0] ?? text).replace(/\.$/, '')

type CrewNumbers = Pick<
  Extract<Reason, { code: 'crew-demand-short' }>,
  'handsOnDuty' | 'handsFree' | 'heldFor' | 'paidSecondsMost'
>

/** Those on duty for all of it who have the skill, and what the others of them are at. */
function crewFor(
  world: World,
  { findings, part, others }: FoundPart,
  { hands, skill }: CrewDemand,
  span: HalfOpenInterval,
): CrewNumbers {
  const { built, schedule } = findings
  const ofSkill = built.lanes.flatMap((lane, index) => {
    const has = skill === null || lane.skills.includes(skill)
    const isThere = lane.onDuty.some(({ fromAt, toAt }) => fromAt <= span.fromAt && span.toAt <= toAt)
    return lane.crew && !isAssumed(lane.laneId) && has && isThere ? [{ index, laneId: lane.laneId }] : []
  })
  const atOwnEvent = new Set(ownEventLanes(schedule, part, span))
  const held = ofSkill.map(({ index, laneId }) => ({
    isHere: atOwnEvent.has(index),
    elsewhere: heldAround(world, others, laneId, part.input.room.id, span),
  }))
  const handsFree = held.filter(({ isHere, elsewhere }) => !isHere && elsewhere.length === 0).length
  const window = withWalk(world, span)
  const forOthers = bookingsByTime(
    others,
    held.flatMap(({ elsewhere }) => elsewhere),
    window,
  )
  const isHere = held.some((one) => one.isHere)
  const { paidPersonSecondsMost } = world.setup.policy
  return {
    handsOnDuty: ofSkill.length,
    handsFree,
    heldFor: [...forOthers, ...(isHere ? [part.input.booking.id] : [])],
    paidSecondsMost: handsFree >= hands && isCapped(built.instance) ? paidPersonSecondsMost : null,
  }
}

/** At what else the same event takes at that time. */
function ownEventLanes(
  schedule: FoundPart['findings']['schedule'],
  { events, network, firstActivity }: FoundPart['part'],
  span: HalfOpenInterval,
): number[] {
  const meanwhile = events.filter((event) => overlaps(event, span))
  return meanwhile.flatMap(
    ({ task }) => schedule?.activities[firstActivity + network.tasks.indexOf(task)]?.lanes ?? [],
  )
}

/** By other plans at that time, or so near to it that they could not walk here. */
const heldAround = (
  world: World,
  others: readonly Turn[],
  laneId: LaneId,
  roomId: RoomId,
  span: HalfOpenInterval,
): HeldLane[] =>
  reservationsOf(others, withWalk(world, span))
    .ofLane(laneId)
    .filter((held) => held.roomId !== roomId || overlaps(held, span))

const withWalk = ({ setup }: World, { fromAt, toAt }: HalfOpenInterval): HalfOpenInterval => ({
  fromAt: instantPlusSeconds(fromAt, -setup.policy.walkBetweenRoomsSeconds),
  toAt: instantPlusSeconds(toAt, setup.policy.walkBetweenRoomsSeconds),
})
