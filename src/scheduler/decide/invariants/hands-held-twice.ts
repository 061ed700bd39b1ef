/** Each pair of hands is in one place at a time, and walks from one room to the next. */
import type { LaneId, RoomId } from '../../../domain/ids.ts'
import type { Turn } from '../../../domain/turn.ts'
import type { WholeSite } from './whole-site.ts'

interface Held {
  readonly turn: Turn
  readonly roomId: RoomId
  readonly from: number
  readonly to: number
}

export function handsHeldTwice({ world, planned }: WholeSite): string[] {
  const byLane = new Map<LaneId, Held[]>()
  for (const turn of planned) {
    for (const task of turn.plan?.tasks ?? []) {
      for (const laneId of task.laneIds) {
        const held = { turn, roomId: turn.roomId, from: task.startsAt as number, to: task.endsAt as number }
        const list = byLane.get(laneId)
        if (list) list.push(held)
        else byLane.set(laneId, [held])
      }
    }
  }
  const walkMs = world.setup.policy.walkBetweenRoomsSeconds * 1000
  return [...byLane].flatMap(([laneId, list]) => {
    const inOrder = [...list].sort((a, b) => a.from - b.from)
    return inOrder.slice(1).flatMap((next, index) => {
      const previous = inOrder[index]!
      const walk = previous.roomId === next.roomId ? 0 : walkMs
      // A policy of longer walks than the plans were made under makes them stale, not wrong.
      const underThisPolicy = [previous, next].every(
        (h) => h.turn.judgement.policyId === world.setup.policy.id,
      )
      return previous.to + (underThisPolicy ? walk : 0) <= next.from
        ? []
        : [`${laneId} is held by ${previous.turn.id} and ${next.turn.id} at once`]
    })
  })
}
