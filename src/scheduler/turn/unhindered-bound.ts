/**
 * The bound of work for which all hands and resources are there all the time: asked of the same work again and again, in
 * gaps of all lengths. It follows from the work, from how many hands there are with which skills and from how much there
 * is of each resource; not from how long the gap is, as long as the work fits in at all.
 */
import type { Activity, Lane, TurnInstance } from './instance.ts'
import type { LowerBound } from './lower-bound-of-turn.ts'

/** Lists are never changed in place. */
const remembered = new WeakMap<readonly Activity[], Map<string, LowerBound>>()
/** For each list; when there are more, it begins anew. */
const REMEMBERED_MOST = 50

/** @param asked  what it is where it is not remembered; the same whenever it is asked */
export function unhinderedBound(
  instance: TurnInstance,
  turnIndex: number,
  asked: () => LowerBound,
): LowerBound {
  if (!isUnhindered(instance)) return asked()
  const bounds = remembered.get(instance.activities) ?? new Map<string, LowerBound>()
  const key = keyOf(instance, turnIndex)
  const known = bounds.get(key)
  if (known?.readyTick && known.readyTick <= instance.horizonTick) return known
  const bound = asked()
  // That it does not fit in does depend on the gap.
  if (bound.readyTick === null) return bound
  if (bounds.size >= REMEMBERED_MOST) bounds.clear()
  bounds.set(key, bound)
  remembered.set(instance.activities, bounds)
  return bound
}

/** Where nothing holds a lane, nobody has to walk anywhere. */
function isUnhindered({
  turns,
  activities,
  lanes,
  resources,
  budgets = [],
  consumables = [],
  horizonTick,
}: TurnInstance): boolean {
  const isThroughout = ({ available, busy }: Lane) => {
    const [duty] = available
    return busy.length === 0 && available.length === 1 && duty?.from === 0 && duty.to === horizonTick
  }
  return (
    budgets.length === 0 &&
    consumables.length === 0 &&
    turns.every(({ releaseTick }) => releaseTick === 0) &&
    lanes.every(isThroughout) &&
    resources.every(({ capacity }) => capacity.length === 1 && capacity[0]?.fromTick === 0) &&
    !activities.some(({ pinned }) => pinned)
  )
}

/** How many lanes of each mask, and how much of each resource. */
function keyOf({ lanes, resources, turns }: TurnInstance, turnIndex: number): string {
  const count = new Map<number, number>()
  for (const { skillMask } of lanes) count.set(skillMask, (count.get(skillMask) ?? 0) + 1)
  const hands = [...count].sort(([a], [b]) => a - b).join()
  return `${turnIndex}/${turns.length}/${hands}/${resources.map(({ capacity }) => capacity[0]?.amount).join()}`
}
