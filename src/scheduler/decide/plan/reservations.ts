/** What plans that stand hold: hands and trolleys, from when to when, and where. */
import { type HalfOpenInterval, overlaps } from '../../../domain/half-open-interval.ts'
import type { LaneId, RoomId, TurnId } from '../../../domain/ids.ts'
import { amountUsed } from '../../../domain/task.ts'
import type { Turn } from '../../../domain/turn.ts'
import { heldSpan } from './held-span.ts'

export interface HeldLane extends HalfOpenInterval {
  readonly roomId: RoomId
  readonly turnId: TurnId
}
export interface HeldResource extends HalfOpenInterval {
  readonly amount: number
  readonly turnId: TurnId
}

export interface Reservations {
  /** By start, then turn. */
  ofLane(laneId: LaneId): readonly HeldLane[]
  ofResource(key: string): readonly HeldResource[]
}

/**
 * @param turns  those without a plan hold nothing
 * @param span   what is held outside it is left out
 */
export function reservationsOf(turns: readonly Turn[], span: HalfOpenInterval): Reservations {
  const lanes = new Map<LaneId, HeldLane[]>()
  const resources = new Map<string, HeldResource[]>()
  for (const turn of turns) {
    // Most plans of a site are nowhere near: they are passed over whole.
    if (turn.plan === null || !overlaps(heldSpan(turn.plan), span)) continue
    const { id: turnId, roomId } = turn
    for (const task of turn.plan.tasks) {
      if (task.startsAt >= span.toAt || task.endsAt <= span.fromAt) continue
      const { startsAt: fromAt, endsAt: toAt } = task
      const held = { fromAt, toAt, turnId, roomId }
      for (const laneId of task.laneIds) push(lanes, laneId, held)
      for (const use of task.uses)
        push(resources, use.resource, { fromAt, toAt, turnId, amount: amountUsed(use, task.hands) })
    }
  }
  for (const list of [...lanes.values(), ...resources.values()]) {
    list.sort((a, b) => a.fromAt - b.fromAt || (a.turnId < b.turnId ? -1 : 1))
  }
  return {
    ofLane: (laneId) => lanes.get(laneId) ?? [],
    ofResource: (key) => resources.get(key) ?? [],
  }
}

function push<Key, Value>(map: Map<Key, Value[]>, key: Key, value: Value): void {
  const list = map.get(key)
  if (list) list.push(value)
  else map.set(key, [value])
}
