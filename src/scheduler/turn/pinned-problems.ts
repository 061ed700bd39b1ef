/** What is malformed about pinned activities: each must be all there is of its turn, and leave nothing to choose. */
import type { Activity, TurnInstance } from './instance.ts'

/** @returns one sentence a problem, by activity; problems of its turn or modes as such are not repeated */
export function pinnedProblems(instance: TurnInstance): string[] {
  const { activities } = instance
  if (!activities.some((activity) => activity.pinned)) return []
  const problems: string[] = []
  const countOfTurn = new Map<number, number>()
  for (const { turn } of activities) countOfTurn.set(turn, (countOfTurn.get(turn) ?? 0) + 1)
  for (const activity of activities) {
    for (const predecessor of activity.after) {
      const before = activities[predecessor]
      if (before?.pinned)
        problems.push(`activity ${activity.key}: it waits for ${before.key}, which is pinned`)
    }
    if (!activity.pinned) continue
    const where = `activity ${activity.key}: it is pinned`
    if (activity.modes.length > 1) problems.push(`${where}, yet has ${activity.modes.length} modes`)
    if (activity.after.length > 0) problems.push(`${where}, yet waits for others`)
    if (countOfTurn.get(activity.turn)! > 1) {
      problems.push(`${where}, yet its turn ${activity.turn} has other activities`)
    }
    problems.push(...spanProblems(instance, activity, where))
  }
  return problems
}

function spanProblems(instance: TurnInstance, activity: Activity, where: string): string[] {
  const turn = instance.turns[activity.turn]
  const mode = activity.modes[0]
  if (!turn || !mode || turn.releaseTick + mode.durationTicks === turn.dueTick) return []
  return [
    `${where} and takes ${mode.durationTicks}, yet its turn is released at ${turn.releaseTick} and due at ${turn.dueTick}`,
  ]
}
