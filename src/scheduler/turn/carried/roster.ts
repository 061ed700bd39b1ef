/** Who could do what of a schedule whose times and modes stay: the ground on which lanes are shared out anew. */
import type { Lane, Schedule, TickSpan, TurnInstance } from '../instance.ts'
import { inOrderOfTime } from './smoothness.ts'

/** One activity that needs hands. */
export interface Job {
  readonly activity: number
  readonly from: number
  readonly to: number
  readonly place: number
  readonly group: number
  /** By slot: the skills that its hand must have. */
  readonly skillMasks: readonly number[]
}

/** Jobs in order of time. A lane's own list names them by position, ascending. */
export interface Roster {
  readonly instance: TurnInstance
  readonly jobs: readonly Job[]
  /** `onDuty[lane][job]`: on duty throughout, and not held by what stands. */
  readonly onDuty: readonly (readonly boolean[])[]
}

/** @param groups  as `groupsOf` gives them */
export function rosterOf(instance: TurnInstance, groups: readonly number[], schedule: Schedule): Roster {
  const jobs = inOrderOfTime(schedule).map(({ activity, mode, startTick, endTick }): Job => {
    const { place, modes } = instance.activities[activity]!
    return {
      activity,
      from: startTick,
      to: endTick,
      place,
      group: groups[activity]!,
      skillMasks: modes[mode]!.hands.flatMap(({ count, skillMask }) =>
        Array.from({ length: count }, () => skillMask),
      ),
    }
  })
  return { instance, jobs, onDuty: instance.lanes.map((lane) => jobs.map((job) => isFree(lane, job))) }
}

function isFree(lane: Lane, job: TickSpan): boolean {
  let coveredTo = job.from
  for (const span of lane.available) {
    if (span.from <= coveredTo && coveredTo < span.to) coveredTo = span.to
  }
  return coveredTo >= job.to && lane.busy.every((span) => span.to <= job.from || job.to <= span.from)
}

/** Whether a lane gets from each of its jobs to the next in time, what stands between them included. Skills aside. */
export function canFollow({ instance, jobs, onDuty }: Roster, lane: number, own: readonly number[]): boolean {
  const { busy } = instance.lanes[lane]!
  let nextBusy = 0
  let previousJob: Job | null = null
  for (const position of own) {
    const job = jobs[position]!
    if (!onDuty[lane]![position]) return false
    let previous: Occupied | null = previousJob
    for (let held = busy[nextBusy]; held && held.to <= job.from; held = busy[nextBusy]) {
      // What stands follows what stands: that is not asked here.
      if (previous && previous === previousJob && !getsThere(instance, previous, held)) return false
      previous = held
      nextBusy += 1
    }
    if (previous && !getsThere(instance, previous, job)) return false
    previousJob = job
  }
  const held = busy[nextBusy]
  return !previousJob || !held || getsThere(instance, previousJob, held)
}

type Occupied = TickSpan & { readonly place: number }

const getsThere = ({ walkTicks }: TurnInstance, before: Occupied, after: Occupied): boolean =>
  before.to + walkTicks[before.place]![after.place]! <= after.from

/** The same schedule with its hands shared out like this. @param lanes  by job, by slot */
export function withLanes(
  schedule: Schedule,
  { jobs }: Roster,
  lanes: readonly (readonly number[])[],
): Schedule {
  const activities = [...schedule.activities]
  for (const [position, { activity }] of jobs.entries()) {
    activities[activity] = { ...activities[activity]!, lanes: [...lanes[position]!] }
  }
  return { ...schedule, activities }
}
