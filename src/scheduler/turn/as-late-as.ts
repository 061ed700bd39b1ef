/** A plan just in time: everything as late as a wanted ready tick allows. */

import type { Schedule, ScheduledActivity, TurnInstance } from './instance.ts'
import { type PreparedInstance, prepared } from './prepared-instance.ts'
import { type Draft, mirroredDraft } from './with-lanes/draft.ts'
import { draftKeeping } from './with-lanes/draft-keeping.ts'
import { foundPlan, scheduleFromDraft } from './with-lanes/found-plan.ts'
import { type Kept, keptOf } from './with-lanes/kept.ts'
import { mirrored } from './with-lanes/mirrored-instance.ts'
import { pinnedPlacement } from './with-lanes/pinned-placement.ts'
import { Timetable } from './with-lanes/timetable.ts'

/**
 * A pass backward, what ends last first; every activity keeps its mode. Made twice, with the lanes it had and with lanes
 * chosen anew: these are taken where work as a whole then begins later. No turn begins earlier than in a schedule that is
 * ready by what is wanted: if both passes would, that schedule is returned.
 * @param instance without problems (`instanceProblems`)
 * @param schedule that can be carried out on it
 * @param readyTicksWanted by turn
 * @returns null when no pass is ready by then, nor the schedule itself
 */
export function asLateAs(
  instance: TurnInstance,
  schedule: Schedule,
  readyTicksWanted: readonly number[],
): Schedule | null {
  const problem = prepared(instance)
  const isReady = (of: Schedule): boolean =>
    of.readyTicks.every((tick, turn) => tick <= readyTicksWanted[turn]!)
  const given = isReady(schedule) ? schedule : null
  const kept = keptOf(problem, schedule)
  const pinned = kept && pinnedPlacement(problem, kept)
  if (!kept || !pinned) return given
  const back = new Timetable(mirrored(problem))
  let latest = given
  for (const keepsLanes of [true, false]) {
    const draft = lateDraft(back, pinned, kept, schedule, readyTicksWanted, keepsLanes)
    const late = draft && scheduleFromDraft(problem, foundPlan(problem, draft))
    if (!late || !isReady(late)) continue
    const starts = firstStarts(problem, late)
    if (given && firstStarts(problem, given).some((tick, turn) => starts[turn]! < tick)) continue
    const later = latest ? sum(starts) - sum(firstStarts(problem, latest)) : 1
    // With the lanes it had, later work may have moved though the first has not.
    if (later > 0 || (later === 0 && keepsLanes)) latest = late
  }
  return latest
}

function lateDraft(
  back: Timetable,
  pinned: Draft,
  kept: Kept,
  schedule: Schedule,
  readyTicksWanted: readonly number[],
  keepsLanes: boolean,
): Draft | null {
  const { horizonTick, releaseTicks } = back.problem
  const ticks = schedule.activities.map((planned: ScheduledActivity) => horizonTick - planned.endTick)
  const draft = draftKeeping(back, mirroredDraft(pinned, horizonTick), kept, ticks, {
    earliestStarts: releaseTicks.map(
      (_, turn) => horizonTick - Math.min(horizonTick, readyTicksWanted[turn]!),
    ),
    latestEnds: releaseTicks.map((tick) => horizonTick - tick),
    keepsLanes,
  })
  return draft && mirroredDraft(draft, horizonTick)
}

/** By turn; for one without work its release. */
function firstStarts(problem: PreparedInstance, schedule: Schedule): number[] {
  const starts = Array.from(problem.releaseTicks, () => Number.POSITIVE_INFINITY)
  for (const { activity, startTick } of schedule.activities) {
    const turn = problem.turnOf[activity]!
    starts[turn] = Math.min(starts[turn]!, startTick)
  }
  return starts.map((tick, turn) => (Number.isFinite(tick) ? tick : problem.releaseTicks[turn]!))
}

const sum = (ticks: readonly number[]): number => ticks.reduce((all, tick) => all + tick, 0)
