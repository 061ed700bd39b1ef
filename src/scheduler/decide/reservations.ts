/** What plans that stand hold: hands and trolleys, from when to when, and where. */
import { type HalfOpenInterval, overlaps } from '../../domain/half-open-interval.ts'
import type { LaneId, RoomId, TurnId } from '../../domain/ids.ts'
import type { Turn } from '../../domain/turn.ts'

export interface HeldLane extends HalfOpenInterval {
  readonly roomId: RoomId
  readonly turnId: TurnId
}
export interface HeldResource extends HalfOpenInterval {
  readonly amount: number
  readonly turnId: TurnId
}

export interface Reservations {
  /** Those that touch the span, by start, then turn. */
  ofLane(laneId: LaneId, span: HalfOpenInterval): readonly HeldLane[]
  ofResource(key: string, span: HalfOpenInterval): readonly HeldResource[]
}

/** @param turns  those without a plan hold nothing */
export function reservationsOf(turns: readonly Turn[]): Reservations {
  const lanes = new Map<LaneId, HeldLane[]>()
  const resources = new Map<string, HeldResource[]>()
  for (const turn of turns) {
    for (const task of turn.plan?.tasks ?? []) {
      const held = { fromAt: task.startsAt, toAt: task.endsAt, turnId: turn.id }
      for (const laneId of task.laneIds) push(lanes, laneId, { ...held, roomId: turn.roomId })
      for (const use of task.uses) push(resources, use.resource, { ...held, amount: use.amount })
    }
  }
  for (const list of [...lanes.values(), ...resources.values()]) {
    list.sort((a, b) => a.fromAt - b.fromAt || (a.turnId < b.turnId ? -1 : 1))
  }
  return {
    ofLane: (laneId, span) => (lanes.get(laneId) ?? []).filter((held) => overlaps(held, span)),
    ofResource: (key, span) => (resources.get(key) ?? []).filter((held) => overlaps(held, span)),
  }
}

function push<Key, Value>(map: Map<Key, Value[]>, key: Key, value: Value): void {
  const list = map.get(key)
  if (list) list.push(value)
  else map.set(key, [value])
}
