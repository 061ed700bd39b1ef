/** Which hands could have done an activity earlier, and what the others lack. Asked of a whole schedule, slowly. */
import type { HandsNeed, Schedule, ScheduledActivity, TickSpan, TurnInstance } from '../instance.ts'

/** Whether a lane, on its hands or not, could have done it a tick earlier. */
export function couldDo(
  instance: TurnInstance,
  schedule: Schedule,
  lane: number,
  { activity, startTick, endTick, lanes }: ScheduledActivity,
): boolean {
  const { place } = instance.activities[activity]!
  const from = startTick - 1
  const to = endTick - 1
  const { held, available } = timesOf(instance, schedule, lane, activity)
  let coveredTo = from
  for (const span of available) if (span.from <= coveredTo && coveredTo < span.to) coveredTo = span.to
  if (coveredTo < to || held.some((one) => one.from < to && from < one.to)) return false
  const before = lastUntil(held, from)
  if (before && before.to + instance.walkTicks[before.place]![place]! > from) return false
  const next = held.find((one) => one.from >= to && one !== before)
  if (next && to + instance.walkTicks[place]![next.place]! > next.from) return false
  const { budget } = instance.lanes[lane]!
  if (budget === undefined || lanes.includes(lane)) return true
  return (
    laneTicksOf(instance, schedule, budget, activity) + to - from <= instance.budgets![budget]!.laneTicksMost
  )
}

interface Held extends TickSpan {
  readonly place: number
  /** null: by a plan that stands. */
  readonly activity: number | null
}

/** What holds a lane beside one activity, in order of time, and when it is on duty */
export function timesOf(
  instance: TurnInstance,
  schedule: Schedule,
  lane: number,
  except: number,
): { held: Held[]; available: readonly TickSpan[] } {
  const { busy, available } = instance.lanes[lane]!
  const own = schedule.activities
    .filter((planned) => planned.activity !== except && planned.lanes.includes(lane))
    .map(({ activity, startTick, endTick }): Held => {
      return { from: startTick, to: endTick, place: instance.activities[activity]!.place, activity }
    })
  const held = [...own, ...busy.map(({ from, to, place }): Held => ({ from, to, place, activity: null }))]
  return { held: held.sort((a, b) => a.from - b.from || a.to - b.to), available }
}

export const lastUntil = (held: readonly Held[], tick: number): Held | undefined =>
  held.findLast((one) => one.to <= tick)

/** What has been taken from a budget, one activity left aside. */
function laneTicksOf(instance: TurnInstance, schedule: Schedule, budget: number, except: number): number {
  let laneTicks = 0
  for (const { activity, lanes, startTick, endTick } of schedule.activities) {
    if (activity === except) continue
    laneTicks +=
      lanes.filter((lane) => instance.lanes[lane]!.budget === budget).length * (endTick - startTick)
  }
  return laneTicks
}

/** Whether hands with these skills, one mask a hand, can be shared out to all the needs; by augmenting paths. */
export function canShareOut(free: readonly number[], needs: readonly HandsNeed[]): boolean {
  const slots = needs.flatMap(({ count, skillMask }) => Array.from({ length: count }, () => skillMask))
  const slotOfHand: (number | undefined)[] = free.map(() => undefined)
  const seat = (slot: number, visited: Set<number>): boolean => {
    for (const [hand, skills] of free.entries()) {
      if (visited.has(hand) || (skills & slots[slot]!) !== slots[slot]) continue
      visited.add(hand)
      const other = slotOfHand[hand]
      if (other !== undefined && !seat(other, visited)) continue
      slotOfHand[hand] = slot
      return true
    }
    return false
  }
  return slots.every((_, slot) => seat(slot, new Set()))
}

/** The one skill too few of them have; all those of a need, where they only lack the combination. */
export function skillsMissing(free: readonly number[], needs: readonly HandsNeed[]): number {
  const isShort = (mask: number): boolean => {
    const has = (skills: number): boolean => (skills & mask) === mask
    const asked = needs.reduce((sum, need) => sum + (has(need.skillMask) ? need.count : 0), 0)
    return free.filter(has).length < asked
  }
  for (const { skillMask } of needs) {
    for (let rest = skillMask; rest !== 0; rest &= rest - 1) if (isShort(rest & -rest)) return rest & -rest
  }
  return (needs.find(({ skillMask }) => isShort(skillMask)) ?? needs[0])?.skillMask ?? 0
}
