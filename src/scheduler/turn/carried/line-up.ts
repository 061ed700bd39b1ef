/** Who does what in which order, without times: the form in which a calmer schedule is looked for. */
import type { Schedule, ScheduledActivity, TurnInstance } from '../instance.ts'
import { bitCount, type PreparedInstance, prepared } from '../prepared-instance.ts'
import { inOrderOfTime } from './smoothness.ts'

export interface LineUp {
  /** All activities but the pinned ones, in the order in which they are given their times. */
  readonly list: Int32Array
  /** By activity: its mode, as counted over the whole instance. */
  readonly modes: Int32Array
  /** The lanes of an activity from `slotFirst` on, slot after slot. */
  readonly lanes: Int32Array
}

/** What all line-ups of a schedule have in common. */
export interface LineUpGround {
  readonly instance: TurnInstance
  /** The instance with what is pinned as time that lanes are held. */
  readonly problem: PreparedInstance
  /** By activity, as `groupsOf` gives them. */
  readonly groups: readonly number[]
  /** By activity; what has none is a part of the room like any other. */
  readonly zones: readonly number[]
  /** Activities that somebody does and that are not pinned. */
  readonly worked: readonly number[]
  /** Those of the same group, by group. */
  readonly members: ReadonlyMap<number, readonly number[]>
  readonly pinned: readonly ScheduledActivity[]
  /** By mode, by slot: the skills that its hand must have. */
  readonly slotMasks: readonly (readonly number[])[]
}

const NO_ZONE = -1

/** @param schedule  without faults; what is pinned is left as it has it */
export function lineUpGround(
  instance: TurnInstance,
  groups: readonly number[],
  schedule: Schedule,
): LineUpGround {
  const pinned = schedule.activities.filter(({ activity }) => instance.activities[activity]!.pinned)
  const lanes = instance.lanes.map((lane, index) => {
    const own = pinned
      .filter((planned) => planned.lanes.includes(index))
      .map(({ activity, startTick, endTick }) => ({
        from: startTick,
        to: endTick,
        place: instance.activities[activity]!.place,
      }))
    return own.length === 0 ? lane : { ...lane, busy: [...lane.busy, ...own].sort((a, b) => a.from - b.from) }
  })
  const members = new Map<number, number[]>()
  const worked: number[] = []
  for (const [activity, { modes, pinned: isPinned }] of instance.activities.entries()) {
    if (isPinned || modes.every(({ hands }) => hands.length === 0)) continue
    const known = members.get(groups[activity]!)
    if (known) known.push(activity)
    else members.set(groups[activity]!, [activity])
    worked.push(activity)
  }
  const slotMasks = instance.activities.flatMap(({ modes }) =>
    modes.map(({ hands }) =>
      hands.flatMap(({ count, skillMask }) => Array.from({ length: count }, () => skillMask)),
    ),
  )
  const zones = instance.activities.map(({ zone }) => zone ?? NO_ZONE)
  return {
    instance,
    problem: prepared({ ...instance, lanes }),
    groups,
    zones,
    worked,
    members,
    pinned,
    slotMasks,
  }
}

/** The schedule without its times. */
export function lineUpOf({ instance, problem }: LineUpGround, schedule: Schedule): LineUp {
  const byItself = schedule.activities.filter(({ lanes }) => lanes.length === 0)
  const list = [...inOrderOfTime(schedule), ...byItself]
    .filter(({ activity }) => !instance.activities[activity]!.pinned)
    .sort((a, b) => a.startTick - b.startTick || a.endTick - b.endTick || a.activity - b.activity)
    .map(({ activity }) => activity)
  const lanes = new Int32Array(problem.slotFirst.at(-1) ?? 0)
  for (const planned of schedule.activities) lanes.set(planned.lanes, problem.slotFirst[planned.activity]!)
  return {
    list: new Int32Array(list),
    modes: new Int32Array(schedule.activities.map(({ mode }, at) => problem.modeFirst[at]! + mode)),
    lanes,
  }
}

export const copied = ({ list, modes, lanes }: LineUp): LineUp => ({
  list: list.slice(),
  modes: modes.slice(),
  lanes: lanes.slice(),
})

export function copyInto(to: LineUp, from: LineUp): void {
  to.list.set(from.list)
  to.modes.set(from.modes)
  to.lanes.set(from.lanes)
}

/** The lanes that an activity has in the line-up. */
export const crewOf = ({ problem }: LineUpGround, { modes, lanes }: LineUp, activity: number): Int32Array => {
  const first = problem.slotFirst[activity]!
  return lanes.subarray(first, first + problem.modeHands[modes[activity]!]!)
}

/**
 * Gives an activity to these lanes, all different, in the first mode for so many hands.
 * @returns false, and nothing is changed: it cannot be done by so many, or by them
 */
export function giveTo(
  { problem, slotMasks }: LineUpGround,
  { modes, lanes }: LineUp,
  activity: number,
  crew: readonly number[],
): boolean {
  const mode = modeForHands(problem, activity, crew.length)
  if (mode === null) return false
  const masks = slotMasks[mode]!
  const slots = masks.map((_, slot) => slot).sort((a, b) => bitCount(masks[b]!) - bitCount(masks[a]!))
  const left = [...crew].sort((a, b) => problem.laneSkillCount[a]! - problem.laneSkillCount[b]! || a - b)
  const chosen = masks.map(() => -1)
  for (const slot of slots) {
    const at = left.findIndex((lane) => (problem.laneMask[lane]! & masks[slot]!) === masks[slot]!)
    if (at < 0) return false
    chosen[slot] = left[at]!
    left.splice(at, 1)
  }
  modes[activity] = mode
  lanes.set(chosen, problem.slotFirst[activity]!)
  return true
}

function modeForHands(problem: PreparedInstance, activity: number, hands: number): number | null {
  for (let mode = problem.modeFirst[activity]!; mode < problem.modeFirst[activity + 1]!; mode++) {
    if (problem.modeHands[mode] === hands) return mode
  }
  return null
}
