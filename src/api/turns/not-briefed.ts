/** Who works on a turn and was not there when the crew was briefed: somebody must tell them when they begin. */
import { covers } from '../../domain/half-open-interval.ts'
import type { LaneId } from '../../domain/ids.ts'
import type { PlannedTask } from '../../domain/plan.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { isTurnWork } from '../../scheduler/decide/index.ts'
import { rememberedLanes } from '../../scheduler/timeline/remembered-lanes.ts'
import { listText } from '../../scheduler/wording/list-text.ts'
import type { LaneLabel } from './lane-labels.ts'

/**
 * Those of the crew who are not on duty from its first to its last minute. The group that was in the room is there; of
 * those whom nobody has promised it is not known.
 * @param tasks  in order of start
 * @returns in order of their first task; none where nobody is briefed
 */
export function notBriefed(
  tasks: readonly PlannedTask[],
  setup: Pick<SiteSetup, 'site' | 'shifts' | 'people'>,
): LaneId[] {
  const briefing = tasks.find(({ kind }) => kind === 'briefing')
  const last = tasks.at(-1)
  if (!briefing || !last) return []
  const crew = rememberedLanes(setup, { fromAt: briefing.startsAt, toAt: last.endsAt })
  const span = { fromAt: briefing.startsAt, toAt: briefing.endsAt }
  const there = new Set<LaneId>()
  const known = new Set<LaneId>()
  for (const { laneId, onDuty } of crew) {
    known.add(laneId)
    if (onDuty.some((duty) => covers(duty, span))) there.add(laneId)
  }
  const working = new Set(tasks.filter(isTurnWork).flatMap(({ laneIds }) => laneIds))
  return [...working].filter((laneId) => known.has(laneId) && !there.has(laneId))
}

/** @returns null: everybody is briefed, or nobody is */
export function notBriefedSentence(laneIds: readonly LaneId[], label: LaneLabel): string | null {
  if (laneIds.length === 0) return null
  return `Not at the briefing: ${listText(laneIds.map(label))}; whoever leads then tells them when they begin.`
}
