import { InputFault } from '../../src/plan-file/input-fault.ts'
import type { TurnInstance } from '../../src/scheduler/turn/index.ts'
import type { BenchmarkInstance } from './benchmark-file.ts'

/**
 * One turn that is due at once: how late it is, is the makespan. Everything has the index it has in the file.
 * @throws InputFault when a task has a successor that is not there
 */
export function instanceOfBenchmark(benchmark: BenchmarkInstance): TurnInstance {
  const { resources, nonrenewable, tasks } = benchmark
  const after = predecessorsIn(benchmark)
  return {
    turns: [{ releaseTick: 0, dueTick: 0, weight: 1 }],
    activities: tasks.map(({ modes }, index) => ({
      key: `${index}`,
      turn: 0,
      place: 0,
      after: after[index]!,
      modes: modes.map(({ duration, uses, consumes }) => ({
        durationTicks: duration,
        hands: [],
        // What takes no time holds nothing.
        uses: uses
          .map((amount, resource) => ({ resource, amount }))
          .filter(({ amount }) => amount > 0 && duration > 0),
        consumes: consumes.map((amount, consumable) => ({ consumable, amount })),
      })),
    })),
    resources: resources.map((amount, index) => ({ key: `${index}`, capacity: [{ fromTick: 0, amount }] })),
    consumables: nonrenewable.map((amountMost, index) => ({ key: `${index}`, amountMost })),
    lanes: [],
    walkTicks: [[0]],
    // One after the other, each as slowly as can be.
    horizonTick: tasks.reduce(
      (sum, { modes }) => sum + Math.max(...modes.map(({ duration }) => duration)),
      0,
    ),
  }
}

/** The longest chain of tasks in their shortest modes. @param instance  without a cycle */
export function criticalPathTicks({ activities }: TurnInstance): number {
  const ends: number[] = []
  const left = new Set(activities.keys())
  while (left.size > 0) {
    const before = left.size
    for (const index of left) {
      const { after, modes } = activities[index]!
      if (after.some((predecessor) => left.has(predecessor))) continue
      const start = after.reduce((latest, predecessor) => Math.max(latest, ends[predecessor]!), 0)
      ends[index] = start + Math.min(...modes.map(({ durationTicks }) => durationTicks))
      left.delete(index)
    }
    if (left.size === before) throw new Error('tasks wait for each other')
  }
  return ends.reduce((latest, end) => Math.max(latest, end), 0)
}

function predecessorsIn({ name, tasks }: BenchmarkInstance): number[][] {
  const after: number[][] = tasks.map(() => [])
  for (const [index, { successors }] of tasks.entries()) {
    for (const successor of successors) {
      if (!after[successor])
        throw new InputFault(`${name}: task ${index} has a successor ${successor} that is not there.`)
      after[successor].push(index)
    }
  }
  return after
}
