/**
 * What a pair of hands is called on a task list: by name, as the k-th hand of a shift, as a helper of the group that was
 * in the room, or as one that nobody has promised.
 */
import { BookingId, type LaneId, ShiftId } from '../../domain/ids.ts'
import { shiftName } from '../../domain/setup-names.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import type { Turn } from '../../domain/turn.ts'
import type { Store } from '../../store/store.ts'

export type LaneLabel = (laneId: LaneId) => string

/** For every pair of hands in the plan of the turn. A name that was erased leaves the id. */
export async function laneLabels(
  store: Store,
  setup: Pick<SiteSetup, 'shifts' | 'retired'>,
  { siteId, plan }: Pick<Turn, 'siteId' | 'plan'>,
): Promise<LaneLabel> {
  const details = await store.personDetails(siteId)
  const names = new Map<string, string>(details.map(({ personId, name }) => [personId, name]))
  const titles = new Map<string, string>()
  for (const id of groupsOf(plan)) {
    const booking = await store.booking(siteId, id)
    if (booking) titles.set(id, booking.title)
  }
  return (laneId) => {
    const [owner = '', hand] = laneId.split('#')
    if (hand === undefined) return names.get(owner) ?? owner
    if (owner === 'assumed') return `hand nobody has promised ${hand}`
    if (BookingId.safeParse(owner).success) return `helper ${hand} of ${titles.get(owner) ?? 'the group'}`
    return `${shiftName(setup, ShiftId.parse(owner))} hand ${hand}`
  }
}

/** Bookings whose guests help. */
function groupsOf(plan: Turn['plan']): Set<BookingId> {
  const owners = (plan?.tasks ?? []).flatMap(({ laneIds }) => laneIds.map((id) => id.split('#')[0]))
  return new Set(owners.flatMap((owner) => BookingId.safeParse(owner).data ?? []))
}
