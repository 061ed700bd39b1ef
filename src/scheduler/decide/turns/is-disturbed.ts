/** Whether what a plan counts on was given to others meanwhile. */
import type { Instant } from '../../../domain/instant.ts'
import type { Turn } from '../../../domain/turn.ts'
import type { World } from '../../timeline/world.ts'
import { heldSpan } from '../plan/held-span.ts'
import { type HeldLane, reservationsOf } from '../plan/reservations.ts'

/**
 * @param others  with the plans that they have now
 * @returns also where something of which there are several is used by both at once: then only a look tells. false for a
 *          turn without a plan
 */
export function isDisturbed(world: World, { plan, roomId }: Turn, others: readonly Turn[]): boolean {
  if (plan === null) return false
  const walkMs = world.setup.policy.walkBetweenRoomsSeconds * 1000
  const { fromAt, toAt } = heldSpan(plan)
  const held = reservationsOf(others, {
    fromAt: (fromAt - walkMs) as Instant,
    toAt: (toAt + walkMs) as Instant,
  })
  return plan.tasks.some(({ startsAt, endsAt, laneIds, uses }) => {
    const meets = (one: Pick<HeldLane, 'fromAt' | 'toAt'>, apartMs: number) =>
      one.fromAt < endsAt + apartMs && startsAt < one.toAt + apartMs
    return (
      laneIds.some((laneId) =>
        held.ofLane(laneId).some((one) => meets(one, one.roomId === roomId ? 0 : walkMs)),
      ) || uses.some(({ resource }) => held.ofResource(resource).some((one) => meets(one, 0)))
    )
  })
}
