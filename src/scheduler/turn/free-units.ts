/** What there is of hands or of a resource over time, less what is pinned takes of it. */
import type { PreparedInstance } from './prepared-instance.ts'

/** How many units are free from each tick until the next; 0 before the first and from the last on. Never negative. */
export interface FreeUnits {
  readonly ticks: readonly number[]
  readonly units: readonly number[]
}

/** The lanes with all skills of the mask that are on duty and not held, less those that pinned activities must have. */
export function freeHands(problem: PreparedInstance, skillMask: number): FreeUnits {
  const changes = new Changes()
  for (let lane = 0; lane < problem.laneCount; lane++) {
    if ((problem.laneMask[lane]! & skillMask) !== skillMask) continue
    for (const gap of problem.gaps[lane]!) changes.add(gap.from, gap.to, 1)
  }
  takePinned(problem, changes, (mode) => handsWithSkill(problem, mode, skillMask))
  return changes.added()
}

export function freeResource(problem: PreparedInstance, resource: number): FreeUnits {
  const changes = new Changes()
  const steps = problem.capacity[resource]!.filter((step) => step.fromTick < problem.horizonTick)
  for (const [index, step] of steps.entries()) {
    changes.add(step.fromTick, steps[index + 1]?.fromTick ?? problem.horizonTick, step.amount)
  }
  takePinned(problem, changes, (mode) => amountUsed(problem, mode, resource))
  return changes.added()
}

/** Hands of the mode that must have all skills of the mask. */
export function handsWithSkill(problem: PreparedInstance, mode: number, skillMask: number): number {
  let count = 0
  for (let group = problem.groupFirst[mode]!; group < problem.groupFirst[mode + 1]!; group++) {
    if ((problem.groupMask[group]! & skillMask) === skillMask) count += problem.groupCount[group]!
  }
  return count
}

export function amountUsed(problem: PreparedInstance, mode: number, resource: number): number {
  for (let use = problem.useFirst[mode]!; use < problem.useFirst[mode + 1]!; use++) {
    if (problem.useResource[use] === resource) return problem.useAmount[use]!
  }
  return 0
}

function takePinned(problem: PreparedInstance, changes: Changes, unitsOf: (mode: number) => number): void {
  for (const activity of problem.pinned) {
    const mode = problem.modeFirst[activity]!
    const start = problem.releaseTicks[problem.turnOf[activity]!]!
    changes.add(start, start + problem.modeTicks[mode]!, -unitsOf(mode))
  }
}

/** Units that come at one tick and go at another, added up in order of time. */
class Changes {
  private readonly changeAt = new Map<number, number>()

  add(from: number, to: number, units: number): void {
    if (units === 0 || from === to) return
    this.changeAt.set(from, (this.changeAt.get(from) ?? 0) + units)
    this.changeAt.set(to, (this.changeAt.get(to) ?? 0) - units)
  }

  added(): FreeUnits {
    let units = 0
    const steps = [...this.changeAt].sort((a, b) => a[0] - b[0])
    return {
      ticks: steps.map(([tick]) => tick),
      units: steps.map(([, change]) => {
        units += change
        return Math.max(0, units)
      }),
    }
  }
}
