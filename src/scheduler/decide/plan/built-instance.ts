/** From task networks, the hands there are and what stored plans hold, to what the solver solves. */
import type { BookingMilestone } from '../../../domain/booking-terms.ts'
import type { HalfOpenInterval } from '../../../domain/half-open-interval.ts'
import type { RoomId } from '../../../domain/ids.ts'
import { earlierOf, type Instant, laterOf } from '../../../domain/instant.ts'
import type { Task, TaskNetwork } from '../../../domain/task.ts'
import { TURN_LATE_MOST_SECONDS, type Turn } from '../../../domain/turn.ts'
import type { LaneOnDuty } from '../../timeline/lanes-on-duty.ts'
import type { TurnInput } from '../../timeline/turn-input.ts'
import type { World } from '../../timeline/world.ts'
import {
  type Activity,
  type InstanceTurn,
  type Lane,
  TICK_SECONDS,
  type TurnInstance,
} from '../../turn/index.ts'
import { ADULT, activitiesOf, CREW, maskIn, skillsAsked } from './activities-of.ts'
import { type EventTask, eventResources, eventTasks } from './event-tasks.ts'
import { InstanceResources, NOTHING_CLOSES } from './instance-resources.ts'
import { lanesFor } from './lanes-for.ts'
import { rememberedActivities } from './remembered-activities.ts'
import { reservationsOf } from './reservations.ts'
import { gridOf, TICK_MS } from './tick-grid.ts'

/** A turn with its place in the instance. */
export interface BuiltPart {
  readonly input: TurnInput
  /** With what the event itself takes behind the work of the turn. */
  readonly network: TaskNetwork
  /** Index of the instance's turn that is ready when the room is. */
  readonly turn: number
  readonly firstActivity: number
  /** Each with the instance's turn that is ready when it is reached. */
  readonly milestones: readonly (BookingMilestone & { readonly turn: number })[]
  /** Each with the instance's turn that it is all of. */
  readonly events: readonly (EventTask & { readonly turn: number })[]
}

export interface BuiltInstance {
  readonly instance: TurnInstance
  /** The moment of tick 0, on the grid that all turns of all sites share. */
  readonly originAt: Instant
  readonly lanes: readonly LaneOnDuty[]
  readonly parts: readonly BuiltPart[]
  /** Bit k of a mask is skill k. */
  readonly skills: readonly string[]
}

/** A turn to be planned. */
export interface TurnPart {
  readonly input: TurnInput
  readonly network: TaskNetwork
  /** What the event itself takes; none where only the work of the turn is asked about. */
  readonly events: readonly EventTask[]
}

export const turnPart = (input: TurnInput, network: TaskNetwork): TurnPart => ({
  input,
  network,
  events: eventTasks(input),
})

/** The moment work on the turn can begin at: not before the last predecessor is clear, not before now. */
export const workFromAt = (world: World, { releaseAt, overrunsUntilAt }: TurnInput): Instant =>
  laterOf(overrunsUntilAt ?? releaseAt, world.now)

/** Doors; now, where they are past. */
export const workUntilAt = (world: World, input: TurnInput): Instant =>
  laterOf(input.dueAt, workFromAt(world, input))

/** As late as plans are looked for at all. */
export const lateUntilAt = (world: World, input: TurnInput): Instant =>
  laterOf(workFromAt(world, input), (input.dueAt + TURN_LATE_MOST_SECONDS * 1000) as Instant)

export interface BuildOptions {
  /** No work of a turn ends later. */
  readonly untilAt: Instant
  /** Default: none. */
  readonly handsAssumed?: number
}

/**
 * @param parts   one turn, or several that are planned together
 * @param others  every other turn that may hold hands or trolleys meanwhile
 */
export function builtInstance(
  world: World,
  parts: readonly TurnPart[],
  others: readonly Turn[],
  { untilAt, handsAssumed = 0 }: BuildOptions,
): BuiltInstance {
  const span = spanOf(world, parts, untilAt)
  const lanes = lanesFor(
    world,
    parts.map(({ input }) => input),
    span,
    handsAssumed,
  )
  const reservations = reservationsOf(others, withWalks(world, span))
  const grid = gridOf(span)
  const helped = parts.filter(({ input }) => input.asks.helpers.length > 0)
  const ofHelpersIn = ({ input }: TurnPart) => helpersOf(input, parts.length)
  const skills = skillsAsked(
    parts.flatMap((part) => [...part.network.tasks, ...part.events.map(({ task }) => task)]),
    lanes.some(({ crew }) => !crew),
    helped.flatMap(ofHelpersIn),
  )
  const maskOf = maskIn(skills)

  const places: (RoomId | null)[] = []
  const placeOf = (roomId: RoomId) => {
    const known = places.indexOf(roomId)
    return known >= 0 ? known : places.push(roomId) - 1
  }
  const resources = new InstanceResources(world, span, grid, reservations)
  const turns: InstanceTurn[] = []
  const lists: (readonly Activity[])[] = []
  let activityCount = 0
  const built = parts.map((part): BuiltPart => {
    const network = withEvents(part)
    for (const resource of network.resources) resources.add(resource.key, resource.capacity)
    const openUses = resources.addOpen(part.input)
    const release = Math.max(0, grid.ceilTick(workFromAt(world, part.input)))
    const turn =
      turns.push({ releaseTick: release, dueTick: grid.floorTick(part.input.dueAt), weight: 1 }) - 1
    const milestones = part.input.asks.milestones.map((milestone) => {
      const byTick = grid.floorTick(milestone.byAt)
      const isTouched = network.milestones.some((one) => one.milestone === milestone.milestone)
      // What nothing has to be done for is reached, however early it was wanted.
      const dueTick = isTouched ? byTick : Math.max(byTick, release)
      return { ...milestone, turn: turns.push({ releaseTick: release, dueTick, weight: 1 }) - 1 }
    })
    const events = part.events.map((event) => {
      const releaseTick = grid.floorTick(event.fromAt)
      return {
        ...event,
        turn: turns.push({ releaseTick, dueTick: grid.ceilTick(event.toAt), weight: 1 }) - 1,
      }
    })
    const place = placeOf(part.input.room.id)
    const ofHelpers = ofHelpersIn(part)
    const firstActivity = activityCount
    const made = () => {
      const own = activitiesOf(network, part.input.network.furnishings, maskOf, {
        resourceIndex: (key) => resources.indexOf(key),
        also: openUses,
        turnOf: turnsByTask(network, turn, milestones, events),
        place,
        ofHelpers,
        firstActivity,
        keyPrefix: parts.length === 1 ? '' : `${part.input.turnId}/`,
      })
      for (const { task, turn: ofEvent } of events) pin(own, network, task, turns[ofEvent]!)
      return own
    }
    const isPlain =
      parts.length === 1 && openUses === NOTHING_CLOSES && milestones.length + events.length === 0
    const own = isPlain ? rememberedActivities(network, skills, ofHelpers, made) : made()
    lists.push(own)
    activityCount += own.length
    return { input: part.input, network, turn, firstActivity, milestones, events }
  })
  const { paidPersonSecondsMost } = world.setup.policy
  const [adultMask, crewMask] = [maskOf([ADULT]), maskOf([CREW])]
  const instanceLanes = lanes.map((lane, index): Lane => {
    const helpsIn = helped.filter(({ input }) => lane.crew || isOfGroup(lane, input))
    return {
      key: lanes[index - 1]?.laneId === lane.laneId ? `${lane.laneId}@${index}` : lane.laneId,
      skillMask:
        maskOf(lane.skills) |
        (lane.adult ? adultMask : 0) |
        (lane.crew ? crewMask : 0) |
        maskOf(helpsIn.flatMap(ofHelpersIn)),
      available: lane.onDuty
        .map((duty) => grid.clip(grid.ceilTick(duty.fromAt), grid.floorTick(duty.toAt)))
        .filter((ticks) => ticks.from < ticks.to),
      busy: reservations.ofLane(lane.laneId).map((held) => ({
        from: grid.floorTick(held.fromAt),
        to: grid.ceilTick(held.toAt),
        place: placeOf(held.roomId),
      })),
      ...(paidPersonSecondsMost !== null && lane.paid ? { budget: 0 } : {}),
    }
  })
  const walk = Math.ceil(world.setup.policy.walkBetweenRoomsSeconds / TICK_SECONDS)
  return {
    originAt: grid.originAt,
    lanes,
    parts: built,
    skills,
    instance: {
      turns,
      activities: lists.length === 1 ? lists[0]! : lists.flat(),
      resources: resources.list(activityCount),
      lanes: instanceLanes,
      ...(paidPersonSecondsMost === null
        ? {}
        : { budgets: [{ key: 'paid', laneTicksMost: Math.floor(paidPersonSecondsMost / TICK_SECONDS) }] }),
      walkTicks: places.map((_, a) => places.map((_, b) => (a === b ? 0 : walk))),
      horizonTick: grid.floorTick(span.toAt),
    },
  }
}

/** A group helps where it was, and nowhere else: among several turns that has to be said. */
function helpersOf({ asks, turnId }: TurnInput, parts: number): string[] {
  if (asks.helpers.length === 0) return [CREW]
  return parts === 1 ? [] : [`helps:${turnId}`]
}

const isOfGroup = ({ laneId }: LaneOnDuty, { asks }: TurnInput): boolean =>
  asks.helpers.some(({ bookingId }) => laneId.startsWith(`${bookingId}#`))

/** All that a turn planned by itself could be kept from by others, with the time it takes to walk there and away. */
export const spanLookedAt = (world: World, input: TurnInput): HalfOpenInterval =>
  withWalks(world, spanOf(world, [{ input, events: eventTasks(input) }], lateUntilAt(world, input)))

/** A hand that is elsewhere until just before still has to walk here. */
export function withWalks(world: World, { fromAt, toAt }: HalfOpenInterval): HalfOpenInterval {
  const walkMs = world.setup.policy.walkBetweenRoomsSeconds * 1000
  return { fromAt: (fromAt - walkMs) as Instant, toAt: (toAt + walkMs) as Instant }
}

/** From the first work or event to the last. */
function spanOf(
  world: World,
  parts: readonly Pick<TurnPart, 'input' | 'events'>[],
  untilAt: Instant,
): HalfOpenInterval {
  const froms = parts.flatMap(({ input, events }) => [
    workFromAt(world, input),
    ...events.map(({ fromAt }) => fromAt),
  ])
  // Events are held in whole ticks.
  const tos = parts.flatMap(({ events }) => events.map(({ toAt }) => (toAt + TICK_MS) as Instant))
  const fromAt = froms.reduce(earlierOf)
  return { fromAt, toAt: [...tos, untilAt, fromAt].reduce(laterOf) }
}

function withEvents({ input, network, events }: TurnPart): TaskNetwork {
  if (events.length === 0) return network
  const known = new Set(network.resources.map(({ key }) => key))
  const more = events.some(({ demand }) => demand === null)
    ? eventResources(input).filter(({ key }) => !known.has(key))
    : []
  return {
    ...network,
    tasks: [...network.tasks, ...events.map(({ task }) => task)],
    resources: [...network.resources, ...more],
  }
}

/** A task belongs to the first milestone that waits for it, else to the turn; an event to itself. */
function turnsByTask(
  network: TaskNetwork,
  turn: number,
  milestones: BuiltPart['milestones'],
  events: BuiltPart['events'],
): (task: Task) => number {
  const byKey = new Map<string, number>(events.map(({ task, turn: own }) => [task.key, own]))
  for (const { milestone, turn: own } of milestones) {
    const reached = network.milestones.find((one) => one.milestone === milestone)
    for (const key of reached?.taskKeys ?? []) if (!byKey.has(key)) byKey.set(key, own)
  }
  return ({ key }) => byKey.get(key) ?? turn
}

function pin(
  activities: Activity[],
  { tasks }: TaskNetwork,
  task: Task,
  { releaseTick, dueTick }: InstanceTurn,
): void {
  const index = tasks.indexOf(task)
  const activity = activities[index]!
  const modes = activity.modes.map((mode) => ({ ...mode, durationTicks: dueTick - releaseTick }))
  activities[index] = { ...activity, modes, pinned: true }
}
