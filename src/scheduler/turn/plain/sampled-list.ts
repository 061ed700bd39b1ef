/**
 * First lists: task by task among those that are ready, the longer the path behind it the likelier.
 * Regret-based biased random sampling: Drexl, Scheduling of project networks by job assignment,
 * Management Science 37 (1991) 1590-1602.
 */
import type { Direction } from './precedence.ts'
import type { Work } from './work.ts'

export interface Sampler {
  readonly waiting: Int32Array
  readonly ready: Int32Array
  readonly weights: Int32Array
}

export function preparedSampler(taskCount: number): Sampler {
  return {
    waiting: new Int32Array(taskCount),
    ready: new Int32Array(taskCount),
    weights: new Int32Array(taskCount),
  }
}

/** Regrets are held below this, so that the sum of weights of 1,000 ready tasks stays below 2^31. */
const largestRegret = 1400

/** Writes work.list and random modes. A task's weight is its regret to the power 1, or 2 when `steep`. */
export function sampleList(
  work: Work,
  direction: Direction,
  tailTicks: Int32Array,
  steep: boolean,
  sampler: Sampler,
): void {
  const { problem, random, list, modes } = work
  const { taskCount, modesFrom } = problem
  const { waiting, ready, weights } = sampler
  let readyCount = 0
  for (let task = 0; task < taskCount; task++) {
    waiting[task] = direction.predecessorsFrom[task + 1]! - direction.predecessorsFrom[task]!
    if (waiting[task] === 0) ready[readyCount++] = task
    const modeCount = modesFrom[task + 1]! - modesFrom[task]!
    modes[task] = modesFrom[task]! + (modeCount > 1 ? random.below(modeCount) : 0)
  }
  for (let at = 0; at < taskCount; at++) {
    let least = tailTicks[ready[0]!]!
    for (let slot = 1; slot < readyCount; slot++) least = Math.min(least, tailTicks[ready[slot]!]!)
    let total = 0
    for (let slot = 0; slot < readyCount; slot++) {
      const regret = Math.min(largestRegret, tailTicks[ready[slot]!]! - least + 1)
      weights[slot] = steep ? regret * regret : regret
      total += weights[slot]!
    }
    let dice = random.below(total)
    let pick = 0
    while (dice >= weights[pick]!) dice -= weights[pick++]!
    const task = ready[pick]!
    ready[pick] = ready[--readyCount]!
    list[at] = task
    for (let edge = direction.successorsFrom[task]!; edge < direction.successorsFrom[task + 1]!; edge++) {
      const next = direction.successors[edge]!
      if (--waiting[next]! === 0) ready[readyCount++] = next
    }
  }
}
