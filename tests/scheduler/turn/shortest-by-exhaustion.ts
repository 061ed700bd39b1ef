/**
 * The best plan of a small instance by trying everything: activities in every order of start, every mode, every set of
 * lanes, every tick. It knows nothing of the solver. What is cut off cannot be missed:
 * - what is not better than a plan already found, even if the rest took its shortest modes one after the other;
 * - of activities with the same start, all orders but one;
 * - (unless `everyTick`) an activity that could as well start a tick earlier with the same lanes: only what started
 *   before can be in its way there, and starting earlier never makes a turn ready later.
 */
import type { Mode, TurnInstance } from '../../../src/scheduler/turn/instance.ts'

export interface BestByExhaustion {
  /** null when no plan ends before the horizon. */
  readonly best: { readonly weightedLateTicks: number; readonly weightedReadyTicks: number } | null
  readonly stepsTaken: number
}

interface Placed {
  readonly activity: number
  readonly mode: Mode
  readonly start: number
  readonly end: number
  readonly lanes: readonly number[]
}

/** @throws when more than `stepsMost` placements had to be tried: then nothing is known */
export function shortestByExhaustion(
  instance: TurnInstance,
  { everyTick = false, stepsMost = 1_000_000 } = {},
): BestByExhaustion {
  const { activities, turns, horizonTick } = instance
  const shortest = activities.map((activity) => Math.min(...activity.modes.map((mode) => mode.durationTicks)))
  let best: BestByExhaustion['best'] = null
  let stepsTaken = 0

  const worth = (ready: readonly number[]): NonNullable<BestByExhaustion['best']> => ({
    weightedLateTicks: turns.reduce((sum, t, i) => sum + t.weight * Math.max(0, ready[i]! - t.dueTick), 0),
    weightedReadyTicks: turns.reduce((sum, turn, i) => sum + turn.weight * ready[i]!, 0),
  })
  const isBetter = (value: NonNullable<BestByExhaustion['best']>): boolean =>
    best === null ||
    value.weightedLateTicks < best.weightedLateTicks ||
    (value.weightedLateTicks === best.weightedLateTicks && value.weightedReadyTicks < best.weightedReadyTicks)

  /** Ready ticks no completion can beat: nothing unplanned starts before `fromTick`. null: it would end too late. */
  const readyAtBest = (placed: readonly (Placed | null)[], fromTick: number): number[] | null => {
    const ends: number[] = []
    const endOf = (index: number): number => {
      const known = ends[index]
      if (known !== undefined) return known
      const { after, turn } = activities[index]!
      const start = Math.max(turns[turn]!.releaseTick, fromTick, ...after.map(endOf))
      const end = placed[index]?.end ?? start + shortest[index]!
      ends[index] = end
      return end
    }
    const ready = turns.map((turn) => turn.releaseTick)
    for (const [index, { turn }] of activities.entries()) ready[turn] = Math.max(ready[turn]!, endOf(index))
    return ready.every((tick) => tick <= horizonTick) || activities.length === 0 ? ready : null
  }

  const search = (placed: (Placed | null)[], last: Placed | null): void => {
    const open = activities.flatMap((_, index) => (placed[index] ? [] : [index]))
    for (let start = last?.start ?? 0; start <= horizonTick; start++) {
      const ready = readyAtBest(placed, start)
      if (ready === null || !isBetter(worth(ready))) return
      if (open.length === 0) {
        if (reachesWhatStands(instance, placed)) best = worth(ready)
        return
      }
      if (open.some((index) => isMissed(instance, index, start))) return
      for (const index of open) {
        if (last && last.start === start && last.end > start && index < last.activity) continue
        for (const [modeIndex, mode] of activities[index]!.modes.entries()) {
          if (!isPossible(instance, placed, index, modeIndex, start, null)) continue
          const free = instance.lanes.flatMap((_, lane) =>
            laneIsFree(instance, placed, lane, index, start, start + mode.durationTicks) ? [lane] : [],
          )
          for (const lanes of laneSets(instance, mode, free)) {
            if (!everyTick && isPossible(instance, placed, index, modeIndex, start - 1, lanes)) continue
            if (!budgetsSuffice(instance, placed, mode, lanes)) continue
            if (!consumablesSuffice(instance, placed, mode)) continue
            stepsTaken += 1
            if (stepsTaken > stepsMost) throw new Error(`more than ${stepsMost} placements`)
            placed[index] = { activity: index, mode, start, end: start + mode.durationTicks, lanes }
            search(placed, placed[index])
            placed[index] = null
          }
        }
      }
    }
  }

  search(
    activities.map(() => null),
    null,
  )
  return { best, stepsTaken }
}

/** Pinned, and its tick has passed. */
const isMissed = (instance: TurnInstance, index: number, tick: number): boolean => {
  const { pinned, turn } = instance.activities[index]!
  return pinned === true && instance.turns[turn]!.releaseTick < tick
}

/** Release, precedence, horizon, resources, and the lanes if they are given. */
function isPossible(
  instance: TurnInstance,
  placed: readonly (Placed | null)[],
  index: number,
  modeIndex: number,
  start: number,
  lanes: readonly number[] | null,
): boolean {
  const { turn, after, modes } = instance.activities[index]!
  const mode = modes[modeIndex]!
  const end = start + mode.durationTicks
  if (start < instance.turns[turn]!.releaseTick || end > instance.horizonTick) return false
  if (isMissed(instance, index, start)) return false
  if (after.some((before) => !placed[before] || placed[before].end > start)) return false
  if (!resourcesSuffice(instance, placed, mode, start, end)) return false
  return lanes === null || lanes.every((lane) => laneIsFree(instance, placed, lane, index, start, end))
}

function resourcesSuffice(
  instance: TurnInstance,
  placed: readonly (Placed | null)[],
  mode: Mode,
  start: number,
  end: number,
): boolean {
  return instance.resources.every((resource, index) => {
    const amountOf = (of: Mode): number =>
      of.uses.reduce((sum, use) => sum + (use.resource === index ? use.amount : 0), 0)
    if (amountOf(mode) === 0) return true
    for (let tick = start; tick < end; tick++) {
      let used = amountOf(mode)
      for (const other of placed) {
        if (other && other.start <= tick && tick < other.end) used += amountOf(other.mode)
      }
      const there = resource.capacity.filter((step) => step.fromTick <= tick).at(-1)?.amount ?? 0
      if (used > there) return false
    }
    return true
  })
}

/** What is placed already and this together; when something is done makes no difference. */
function budgetsSuffice(
  instance: TurnInstance,
  placed: readonly (Placed | null)[],
  mode: Mode,
  lanes: readonly number[],
): boolean {
  return (instance.budgets ?? []).every((budget, index) => {
    const takenBy = (of: Mode, its: readonly number[]): number =>
      of.durationTicks * its.filter((lane) => instance.lanes[lane]!.budget === index).length
    const before = placed.reduce((sum, other) => sum + (other ? takenBy(other.mode, other.lanes) : 0), 0)
    return before + takenBy(mode, lanes) <= budget.laneTicksMost
  })
}

function consumablesSuffice(
  { consumables = [] }: TurnInstance,
  placed: readonly (Placed | null)[],
  mode: Mode,
): boolean {
  return consumables.every(({ amountMost }, index) => {
    const takenBy = (of: Mode): number =>
      (of.consumes ?? []).reduce((sum, one) => sum + (one.consumable === index ? one.amount : 0), 0)
    return placed.reduce((sum, other) => sum + (other ? takenBy(other.mode) : 0), takenBy(mode)) <= amountMost
  })
}

/**
 * Activities are placed in order of start, so what a lane does before is known. What it does next is not yet: whether it
 * gets in time to what stands is asked when all are placed.
 */
function laneIsFree(
  instance: TurnInstance,
  placed: readonly (Placed | null)[],
  laneIndex: number,
  activity: number,
  start: number,
  end: number,
): boolean {
  const lane = instance.lanes[laneIndex]!
  for (let tick = start; tick < end; tick++) {
    if (!lane.available.some((span) => span.from <= tick && tick < span.to)) return false
  }
  const held = [
    ...lane.busy,
    ...placed.flatMap((other) =>
      other?.lanes.includes(laneIndex)
        ? [{ from: other.start, to: other.end, place: instance.activities[other.activity]!.place }]
        : [],
    ),
  ]
  if (held.some((span) => span.from < end && start < span.to)) return false
  const place = instance.activities[activity]!.place
  const before = held.filter((span) => span.to <= start).sort((a, b) => b.to - a.to)[0]
  return !(before && before.to + instance.walkTicks[before.place]![place]! > start)
}
function reachesWhatStands(instance: TurnInstance, placed: readonly (Placed | null)[]): boolean {
  return instance.lanes.every((lane, laneIndex) =>
    lane.busy.every((span) => {
      const own = placed.filter((other) => other?.lanes.includes(laneIndex) && other.end <= span.from)
      const between = lane.busy.filter((other) => other.to <= span.from).map((other) => other.to)
      return own.every((other) => {
        const isLast = [...between, ...own.map((another) => another!.end)].every((end) => end <= other!.end)
        const walk = instance.walkTicks[instance.activities[other!.activity]!.place]![span.place]!
        return !isLast || other!.end + walk <= span.from
      })
    }),
  )
}

/** Every choice of free lanes for the groups of a mode; the order within a group makes no difference. */
function laneSets(instance: TurnInstance, mode: Mode, free: readonly number[]): number[][] {
  let sets: number[][] = [[]]
  for (const need of mode.hands) {
    for (let hand = 0; hand < need.count; hand++) {
      sets = sets.flatMap((set) =>
        free
          .filter((lane) => !set.includes(lane) && (hand === 0 || lane > set.at(-1)!))
          .filter((lane) => (instance.lanes[lane]!.skillMask & need.skillMask) === need.skillMask)
          .map((lane) => [...set, lane]),
      )
    }
  }
  return sets
}
