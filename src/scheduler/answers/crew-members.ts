/** The people of the crew in a turn, and in what order they are counted on where there are to be fewer. */
import type { LaneId } from '../../domain/ids.ts'
import type { Lane, TickSpan, TurnInstance } from '../turn/index.ts'
import type { InstanceAround } from './instance-around.ts'

/** One of the crew; whose skills change from one day to another has several lanes. */
export interface CrewMember {
  readonly laneId: LaneId
  /** Indices into the lanes of the instance. */
  readonly lanes: readonly number[]
  /** Of what the work asks for: bit k is skill k. */
  readonly askedMask: number
  /** Within the time that was looked at; 0: comes later. */
  readonly freeTicks: number
  /** Whoever has the same can do the same at the same times. */
  readonly likeness: string
}

/** Everybody of the crew with a lane, by id. */
export function crewMembers({ built }: InstanceAround, window: TickSpan): CrewMember[] {
  const asked = skillMaskAsked(built.instance)
  const members = new Map<LaneId, CrewMember>()
  for (const [index, { laneId, crew }] of built.lanes.entries()) {
    if (!crew) continue
    const lane = built.instance.lanes[index]!
    const known = members.get(laneId)
    const { skillMask, available, busy } = lane
    members.set(laneId, {
      laneId,
      lanes: [...(known?.lanes ?? []), index],
      askedMask: (known?.askedMask ?? 0) | (skillMask & asked),
      freeTicks: (known?.freeTicks ?? 0) + ticksFree(lane, window),
      likeness: (known?.likeness ?? '') + JSON.stringify([skillMask, available, busy]),
    })
  }
  return [...members.values()].sort((a, b) => (a.laneId < b.laneId ? -1 : 1))
}

/**
 * Those with time within the window: who has skills asked for that nobody before has first, then who has more of those,
 * then who is free for longest, then by id.
 */
export function crewInOrder(around: InstanceAround, window: TickSpan): CrewMember[] {
  const left = crewMembers(around, window).filter(({ freeTicks }) => freeTicks > 0)
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
 * From when the room is free until then; where that is not after it, because guests stay beyond doors, all the time
 * there is.
 */
export function windowUntil({ built, part }: InstanceAround, untilTick: number): TickSpan {
  const { turns, horizonTick } = built.instance
  const from = turns[part.turn]!.releaseTick
  return { from, to: untilTick > from ? Math.min(untilTick, horizonTick) : horizonTick }
}

/** Every skill that some way to do some of the work asks for. */
function skillMaskAsked({ activities }: TurnInstance): number {
  let mask = 0
  for (const { modes } of activities)
    for (const { hands } of modes) for (const need of hands) mask |= need.skillMask
  return mask
}

/** Busy spans are disjoint. */
function ticksFree({ available, busy }: Lane, window: TickSpan): number {
  let ticks = 0
  for (const span of available) {
    const within = { from: Math.max(span.from, window.from), to: Math.min(span.to, window.to) }
    if (within.from >= within.to) continue
    ticks += within.to - within.from
    for (const held of busy) ticks -= overlapTicks(held, within)
  }
  return ticks
}

export const overlapTicks = (a: TickSpan, b: TickSpan): number =>
  Math.max(0, Math.min(a.to, b.to) - Math.max(a.from, b.from))

function bitCount(mask: number): number {
  let count = 0
  for (let rest = mask; rest !== 0; rest &= rest - 1) count += 1
  return count
}
