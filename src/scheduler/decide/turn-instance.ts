/** From a turn's task network, the hands on duty and what stored plans hold, to what the solver solves; and back. */
import type { Closure } from '../../domain/closure.ts'
import type { HalfOpenInterval } from '../../domain/half-open-interval.ts'
import type { PassageId, RoomId } from '../../domain/ids.ts'
import { type Instant, laterOf } from '../../domain/instant.ts'
import type { Plan, PlannedTask } from '../../domain/plan.ts'
import { amountUsed, type Task, type TaskNetwork } from '../../domain/task.ts'
import { TURN_LATE_MOST_SECONDS, type Turn } from '../../domain/turn.ts'
import type { LaneOnDuty } from '../timeline/lanes-on-duty.ts'
import type { TurnInput } from '../timeline/turn-input.ts'
import type { World } from '../timeline/world.ts'
import {
  type Activity,
  criticalChain,
  type HandsNeed,
  type InstanceResource,
  type Lane,
  type Schedule,
  SOLVER_VERSION,
  TICK_SECONDS,
  type TurnInstance,
} from '../turn/index.ts'
import { reservationsOf } from './reservations.ts'

export const TICK_MS = TICK_SECONDS * 1000

/** As the task network names the resource that a passage is. */
const passageKey = (passageId: PassageId): string => `passage:${passageId}`

export interface BuiltInstance {
  readonly instance: TurnInstance
  /** The moment of tick 0, on the grid that all turns of all sites share. */
  readonly originAt: Instant
  readonly lanes: readonly LaneOnDuty[]
  readonly network: TaskNetwork
  /** Bit k of a mask is skill k; the last one is being an adult. */
  readonly skills: readonly string[]
}

export const ADULT = 'adult'

/** The moment work on the turn can begin at: not before the last predecessor is clear, not before now. */
export const workFromAt = (world: World, input: TurnInput): Instant => laterOf(input.releaseAt, world.now)

/** The span a turn's plan may lie in, late ones included. */
export function planSpan(world: World, input: TurnInput): HalfOpenInterval {
  const fromAt = workFromAt(world, input)
  const lastAt = (input.dueAt + TURN_LATE_MOST_SECONDS * 1000) as Instant
  return { fromAt, toAt: laterOf(fromAt, lastAt) }
}

/**
 * @param others   every other turn that may hold hands or trolleys in the span of this one
 * @param untilAt  nothing ends later
 */
export function builtInstance(
  world: World,
  input: TurnInput,
  network: TaskNetwork,
  lanes: readonly LaneOnDuty[],
  others: readonly Turn[],
  untilAt: Instant,
): BuiltInstance {
  const span = { fromAt: workFromAt(world, input), toAt: untilAt }
  const walkMs = world.setup.policy.walkBetweenRoomsSeconds * 1000
  // A hand that is elsewhere until just before still has to walk here.
  const reservations = reservationsOf(others, {
    fromAt: (span.fromAt - walkMs) as Instant,
    toAt: (span.toAt + walkMs) as Instant,
  })
  const originAt = (Math.floor(span.fromAt / TICK_MS) * TICK_MS) as Instant
  const floorTick = (at: number) => Math.floor((at - originAt) / TICK_MS)
  const ceilTick = (at: number) => Math.ceil((at - originAt) / TICK_MS)
  const horizonTick = floorTick(span.toAt)

  const masked = skillsAsked(network)
  const maskOf = maskIn(masked)

  const places: (RoomId | null)[] = [input.room.id]
  const placeOf = (roomId: RoomId) => {
    const known = places.indexOf(roomId)
    return known >= 0 ? known : places.push(roomId) - 1
  }
  const clip = (from: number, to: number) => ({ from: Math.max(0, from), to: Math.min(horizonTick, to) })

  const instanceLanes: Lane[] = lanes.map((lane) => ({
    key: lane.laneId,
    skillMask: maskOf(lane.adult ? [...lane.skills, ADULT] : lane.skills),
    available: lane.onDuty
      .map((duty) => clip(ceilTick(duty.fromAt), floorTick(duty.toAt)))
      .filter((ticks) => ticks.from < ticks.to),
    busy: reservations.ofLane(lane.laneId).map((held) => ({
      from: floorTick(held.fromAt),
      to: ceilTick(held.toAt),
      place: placeOf(held.roomId),
    })),
  }))

  const closures = world.closures.filter(({ fromAt, toAt }) => fromAt < span.toAt && toAt > span.fromAt)
  const closedTicks = ({ fromAt, toAt }: Closure) => clip(floorTick(fromAt), ceilTick(toAt))
  const resources: InstanceResource[] = network.resources.map(({ key, capacity }) => ({
    key,
    capacity: capacitySteps(capacity, [
      ...reservations
        .ofResource(key)
        .map((held) => ({ ...clip(floorTick(held.fromAt), ceilTick(held.toAt)), amount: held.amount })),
      ...closures
        .filter(({ passageIds }) => passageIds.some((passageId) => key === passageKey(passageId)))
        .map((closure) => ({ ...closedTicks(closure), amount: capacity })),
    ]),
  }))
  const openResources = placesClosed(input, closures).map(({ key, closures, needs }) => {
    const taken = closures.map((closure) => ({ ...closedTicks(closure), amount: network.tasks.length }))
    resources.push({ key, capacity: capacitySteps(network.tasks.length, taken) })
    return { resource: resources.length - 1, needs }
  })

  const activities = activitiesOf(network, maskOf, (task) =>
    openResources.filter(({ needs }) => needs(task)).map(({ resource }) => ({ resource, amount: 1 })),
  )

  const walk = Math.ceil(world.setup.policy.walkBetweenRoomsSeconds / TICK_SECONDS)
  return {
    originAt,
    lanes,
    network,
    skills: masked,
    instance: {
      turns: [{ releaseTick: ceilTick(span.fromAt), dueTick: floorTick(input.dueAt), weight: 1 }],
      activities,
      resources,
      lanes: instanceLanes,
      walkTicks: places.map((_, a) => places.map((_, b) => (a === b ? 0 : walk))),
      horizonTick,
    },
  }
}

/** Every skill that the tasks ask for, and at last being an adult: bit k of a mask is skill k. */
export const skillsAsked = ({ tasks }: TaskNetwork): string[] => [
  ...[...new Set(tasks.flatMap(({ skill }) => skill ?? []))].sort(),
  ADULT,
]

type MaskOf = (names: readonly string[]) => number

/** Names that nobody asks for have no bit. */
export const maskIn =
  (skills: readonly string[]): MaskOf =>
  (names) =>
    names.reduce((mask, name) => {
      const bit = skills.indexOf(name)
      return bit < 0 ? mask : mask | (1 << bit)
    }, 0)

/** @param also  what else a task holds, whatever its mode */
export function activitiesOf(
  network: TaskNetwork,
  maskOf: MaskOf,
  also: (task: Task) => readonly { readonly resource: number; readonly amount: number }[],
): Activity[] {
  const indexByKey = new Map(network.tasks.map((task, index) => [task.key, index]))
  const resourceIndex = new Map(network.resources.map((resource, index) => [resource.key, index]))
  return network.tasks.map((task) => {
    const held = also(task)
    return {
      key: task.key,
      turn: 0,
      place: 0,
      after: task.after.map((key) => indexByKey.get(key) ?? -1),
      modes: task.modes.map((mode) => ({
        durationTicks: Math.max(1, Math.ceil(mode.seconds / TICK_SECONDS)),
        hands: handsNeeds(task, mode.hands, maskOf),
        uses: [
          ...task.uses.map((use) => ({
            resource: resourceIndex.get(use.resource) ?? -1,
            amount: amountUsed(use, mode.hands),
          })),
          ...held,
        ],
      })),
    }
  })
}

interface PlaceClosed {
  readonly key: string
  readonly closures: readonly Closure[]
  /** Whether a task cannot go on while the place is closed. */
  readonly needs: (task: Task) => boolean
}

/** The room, and each store of its pieces, where they close for a time. Everything is done in the room. */
function placesClosed(input: TurnInput, closures: readonly Closure[]): PlaceClosed[] {
  const { room } = input
  const ofRoom = closures.filter(({ sectionIds }) => sectionIds.some((id) => room.sectionIds.includes(id)))
  const stores = input.network.storagePlaces.map((store): PlaceClosed => {
    const kept = new Set(
      input.network.furnishings.filter((one) => one.storagePlaceId === store.id).map(({ id }) => id),
    )
    return {
      key: `open:${store.id}`,
      closures: closures.filter(({ storagePlaceIds }) => storagePlaceIds.includes(store.id)),
      needs: ({ furnishingId, fromPlace, toPlace }) =>
        furnishingId !== null && kept.has(furnishingId) && [fromPlace, toPlace].includes(store.name),
    }
  })
  return [{ key: `open:${room.id}`, closures: ofRoom, needs: () => true }, ...stores].filter(
    (place) => place.closures.length > 0,
  )
}

function handsNeeds(task: Task, hands: number, maskOf: MaskOf): HandsNeed[] {
  if (hands === 0) return []
  const all = task.adultsOnly ? [ADULT] : []
  if (task.skill === null) return [{ count: hands, skillMask: maskOf(all) }]
  const skilled = { count: 1, skillMask: maskOf([...all, task.skill]) }
  return hands === 1 ? [skilled] : [skilled, { count: hands - 1, skillMask: maskOf(all) }]
}

/** What is left of a capacity over time when some of it is taken, as steps; it never goes below zero. */
export function capacitySteps(
  capacity: number,
  taken: readonly { from: number; to: number; amount: number }[],
): { fromTick: number; amount: number }[] {
  const changeAt = new Map<number, number>([[0, 0]])
  for (const { from, to, amount } of taken) {
    if (from >= to) continue
    changeAt.set(from, (changeAt.get(from) ?? 0) + amount)
    changeAt.set(to, (changeAt.get(to) ?? 0) - amount)
  }
  const steps: { fromTick: number; amount: number }[] = []
  let held = 0
  for (const [fromTick, change] of [...changeAt].sort(([a], [b]) => a - b)) {
    held += change
    const amount = Math.max(0, capacity - held)
    if (steps.at(-1)?.amount !== amount) steps.push({ fromTick, amount })
  }
  return steps
}

/** The schedule with names and moments: what is stored and shown. */
export function planOf(built: BuiltInstance, schedule: Schedule, workDone: number): Plan {
  const at = (tick: number) => (built.originAt + tick * TICK_MS) as Instant
  const tasks = schedule.activities.map((scheduled): PlannedTask => {
    const task = built.network.tasks[scheduled.activity]!
    return {
      ...task,
      hands: scheduled.lanes.length,
      laneIds: scheduled.lanes.map((lane) => built.lanes[lane]!.laneId),
      startsAt: at(scheduled.startTick),
      endsAt: at(scheduled.endTick),
    }
  })
  tasks.sort((a, b) => a.startsAt - b.startsAt || (a.key < b.key ? -1 : 1))
  const readyTick = schedule.readyTicks[0]!
  return {
    tasks,
    resources: [...built.network.resources],
    startsAt: tasks[0]?.startsAt ?? at(readyTick),
    readyAt: at(readyTick),
    criticalTaskKeys: criticalChain(built.instance, schedule, 0).map(
      (index) => built.network.tasks[index]!.key,
    ),
    solverVersion: SOLVER_VERSION,
    workDone,
  }
}

/** The schedule a stored plan is, on this instance; null when the two do not speak of the same tasks and hands. */
export function scheduleOf(built: BuiltInstance, plan: Plan): Schedule | null {
  const laneIndex = new Map<string, number>(built.lanes.map((lane, index) => [lane.laneId, index]))
  const plannedByKey = new Map(plan.tasks.map((task) => [task.key, task]))
  if (plannedByKey.size !== built.network.tasks.length) return null
  const tick = (moment: Instant) => (moment - built.originAt) / TICK_MS
  const activities = []
  for (const [activity, task] of built.network.tasks.entries()) {
    const planned = plannedByKey.get(task.key)
    const mode = task.modes.findIndex((way) => way.hands === planned?.hands)
    if (!planned || mode < 0) return null
    const lanes = planned.laneIds.map((laneId) => laneIndex.get(laneId) ?? -1)
    if (lanes.includes(-1)) return null
    activities.push({
      activity,
      mode,
      startTick: tick(planned.startsAt),
      endTick: tick(planned.endsAt),
      lanes,
    })
  }
  return { activities, readyTicks: [tick(plan.readyAt)] }
}
