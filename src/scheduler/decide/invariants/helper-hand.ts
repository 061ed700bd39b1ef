import { leftAt } from '../../../domain/booking.ts'
import { OwnHelp } from '../../../domain/booking-terms.ts'
import type { FurnishingKind } from '../../../domain/furnishing.ts'
import type { LaneId } from '../../../domain/ids.ts'
import type { PlannedTask } from '../../../domain/plan.ts'
import type { TaskKind } from '../../../domain/task.ts'
import type { Turn } from '../../../domain/turn.ts'
import type { World } from '../../timeline/world.ts'

/** They take down their own chairs and tables, and nothing else. */
const ways: ReadonlySet<TaskKind> = new Set(['strike', 'restack', 'park'])
const things: ReadonlySet<FurnishingKind> = new Set([
  'stacking-chair',
  'folding-chair',
  'round-table',
  'long-table',
])

/**
 * Of a group that has just left the room, as many as it has promised, from when it is out for as long as it has
 * promised, at its chairs and tables. Nobody has said how old they are: none of them counts as grown up.
 * @returns null: it is none of those, or not then, or not at that
 */
export function helperHand(
  { bookings, furnishingsById }: World,
  { predecessorBookingIds }: Turn,
  { startsAt, endsAt, kind, furnishingId, skill }: PlannedTask,
  laneId: LaneId,
): { readonly skills: readonly string[]; readonly adult: boolean } | null {
  const [owner, number] = laneId.split('#')
  const group = bookings.find(({ id }) => id === owner)
  const promised = OwnHelp.safeParse(group?.ownHelp)
  if (!group || !promised.success || !predecessorBookingIds.includes(group.id)) return null
  const { hands, seconds } = promised.data
  const fromAt = leftAt(group)
  const isInTime = startsAt >= fromAt && endsAt <= fromAt + seconds * 1000
  const thing = furnishingId === null ? undefined : furnishingsById.get(furnishingId)?.kind
  const mayHelp = ways.has(kind) && thing !== undefined && things.has(thing) && skill === null
  const index = Number(number)
  return isInTime && mayHelp && index >= 1 && index <= hands ? { skills: [], adult: false } : null
}
