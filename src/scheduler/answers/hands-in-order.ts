/** Who of the crew is counted on first where there are to be fewer, and who is added where there are to be more. */
import { HELPERS_PER_LEAD } from '../../domain/booking-terms.ts'
import type { LaneId } from '../../domain/ids.ts'
import { ADULT, CREW } from '../decide/plan/activities-of.ts'
import { TICK_MS } from '../decide/plan/tick-grid.ts'
import type { Lane, TickSpan, TurnInstance } from '../turn/index.ts'
import type { InstanceAround } from './instance-around.ts'

/** One of the crew; whose skills change from one day to another has several lanes. */
export interface CrewMember {
  readonly laneId: LaneId
  /** Indices into the lanes of the instance. */
  readonly lanes: readonly number[]
  /** Of what the work asks for: bit k is skill k. */
  readonly askedMask: number
  readonly freeTicks: number
}

/**
 * Everybody of the crew with time before doors: who has skills asked for that nobody before has first, then who has more
 * of those, then who is free for longest, then by id. Who comes on duty after doors is not among them.
 */
export function crewInOrder({ built, part }: InstanceAround): CrewMember[] {
  const asked = skillMaskAsked(built.instance)
  const window = timeBeforeDoors(built.instance, part.turn)
  const members = new Map<LaneId, CrewMember>()
  for (const [index, { laneId, crew }] of built.lanes.entries()) {
    const lane = built.instance.lanes[index]!
    const freeTicks = ticksFree(lane, window)
    if (!crew || freeTicks === 0) continue
    const known = members.get(laneId)
    members.set(laneId, {
      laneId,
      lanes: [...(known?.lanes ?? []), index],
      askedMask: (known?.askedMask ?? 0) | (lane.skillMask & asked),
      freeTicks: (known?.freeTicks ?? 0) + freeTicks,
    })
  }
  const left = [...members.values()]
  const inOrder: CrewMember[] = []
  let covered = 0
  while (left.length > 0) {
    const [next] = left.sort(
      (a, b) =>
        bitCount(b.askedMask & ~covered) - bitCount(a.askedMask & ~covered) ||
        bitCount(b.askedMask) - bitCount(a.askedMask) ||
        b.freeTicks - a.freeTicks ||
        (a.laneId < b.laneId ? -1 : 1),
    )
    covered |= next!.askedMask
    inOrder.push(next!)
    left.shift()
  }
  return inOrder
}

/**
 * The same turn with so many hands in all: the first of the crew, then adults without special skills. Who comes after
 * doors is there in any case, and of a group that helps as many as those who are there can lead. More hands are always
 * those of fewer, and somebody beside.
 */
export function instanceWithHands(
  around: InstanceAround,
  crew: readonly CrewMember[],
  hands: number,
): TurnInstance {
  const { built } = around
  const kept = lanesKept(around, crew, hands)
  const added = Array.from({ length: Math.max(0, hands - crew.length) }, (_, index) =>
    addedLane(around, index),
  )
  return {
    ...built.instance,
    lanes: [...built.instance.lanes.filter((_, index) => kept.has(index)), ...added],
  }
}

/** Of each of so many hands its lanes in the instance with them. */
export function peopleIn(
  around: InstanceAround,
  crew: readonly CrewMember[],
  hands: number,
): (readonly number[])[] {
  const kept = [...lanesKept(around, crew, hands)]
  return [
    ...crew.slice(0, hands).map(({ lanes }) => lanes.map((lane) => kept.indexOf(lane))),
    ...Array.from({ length: Math.max(0, hands - crew.length) }, (_, index) => [kept.length + index]),
  ]
}

/** Indices of the lanes that are there with so many hands, ascending. */
export function lanesKept(around: InstanceAround, crew: readonly CrewMember[], hands: number): Set<number> {
  const { built, part } = around
  const gone = new Set(crew.slice(hands).flatMap(({ lanes }) => lanes))
  const kept = new Set([...built.lanes.keys()].filter((index) => !gone.has(index)))
  for (const { bookingId, fromAt } of part.input.asks.helpers) {
    const tick = (fromAt - built.originAt) / TICK_MS
    const isThere = (lane: Lane) => lane.available.some(({ from, to }) => from <= tick && tick < to)
    const leads = built.lanes.filter(
      ({ crew: isCrew }, index) => isCrew && kept.has(index) && isThere(built.instance.lanes[index]!),
    ).length
    for (const [index, { laneId }] of built.lanes.entries()) {
      const [owner, hand] = laneId.split('#')
      if (owner === bookingId && Number(hand) > leads * HELPERS_PER_LEAD) kept.delete(index)
    }
  }
  return kept
}

/** There whenever any of the crew is; where none of it is on duty before doors, all the time. */
function addedLane({ built, part }: InstanceAround, index: number): Lane {
  const { instance } = built
  const window = timeBeforeDoors(instance, part.turn)
  const crewTimes = instance.lanes.filter((_, lane) => built.lanes[lane]!.crew)
  const isStaffed = crewTimes.some(({ available }) => available.some((span) => overlap(span, window) > 0))
  const available = isStaffed
    ? united(crewTimes.flatMap((lane) => lane.available))
    : [{ from: 0, to: instance.horizonTick }]
  const skillMask = built.skills.reduce(
    (mask, name, bit) => (name === ADULT || name === CREW ? mask | (1 << bit) : mask),
    0,
  )
  return { key: `added-${index + 1}`, skillMask, available, busy: [] }
}

/** Every skill that some way to do some of the work asks for. */
function skillMaskAsked({ activities }: TurnInstance): number {
  let mask = 0
  for (const { modes } of activities)
    for (const { hands } of modes) for (const need of hands) mask |= need.skillMask
  return mask
}

/** Where there is none, because guests stay beyond doors, all the time there is. */
function timeBeforeDoors({ turns, horizonTick }: TurnInstance, turn: number): TickSpan {
  const { releaseTick: from, dueTick } = turns[turn]!
  return { from, to: dueTick > from ? dueTick : horizonTick }
}

/** Busy spans are disjoint. */
function ticksFree({ available, busy }: Lane, window: TickSpan): number {
  let ticks = 0
  for (const span of available) {
    const within = { from: Math.max(span.from, window.from), to: Math.min(span.to, window.to) }
    if (within.from >= within.to) continue
    ticks += within.to - within.from
    for (const held of busy) ticks -= overlap(held, within)
  }
  return ticks
}

const overlap = (a: TickSpan, b: TickSpan): number =>
  Math.max(0, Math.min(a.to, b.to) - Math.max(a.from, b.from))

function united(spans: readonly TickSpan[]): TickSpan[] {
  const union: { from: number; to: number }[] = []
  for (const { from, to } of [...spans].sort((a, b) => a.from - b.from)) {
    const last = union.at(-1)
    if (last && from <= last.to) last.to = Math.max(last.to, to)
    else union.push({ from, to })
  }
  return union
}

function bitCount(mask: number): number {
  let count = 0
  for (let rest = mask; rest !== 0; rest &= rest - 1) count += 1
  return count
}
