/** How one instance came out. */
import { InputFault } from '../../src/plan-file/input-fault.ts'
import { scheduleFaults, solve } from '../../src/scheduler/turn/index.ts'
import { instanceProblems } from '../../src/scheduler/turn/instance-problems.ts'
import type { BenchmarkArguments } from './benchmark-arguments.ts'
import type { BenchmarkInstance } from './benchmark-file.ts'
import { instanceOfBenchmark } from './instance-of-benchmark.ts'

export interface BenchmarkLine {
  readonly name: string
  /** null: no plan was found. */
  readonly makespan: number | null
  /** null: there is no plan at all. */
  readonly lowerBound: number | null
  /** No plan is shorter, and that is known from the bound; or there is none. */
  readonly proven: boolean
  /** Generated. */
  readonly schedules: number
  readonly milliseconds: number
}

/** @throws InputFault when the instance is malformed */
export function benchmarkLine(
  benchmark: BenchmarkInstance,
  { workMost, secondsMost, seed }: Pick<BenchmarkArguments, 'workMost' | 'secondsMost' | 'seed'>,
): BenchmarkLine {
  const instance = instanceOfBenchmark(benchmark)
  const problems = instanceProblems(instance)
  if (problems.length > 0) throw new InputFault(`${benchmark.name}: ${problems.join('; ')}.`)
  const begun = performance.now()
  const options = {
    workMost,
    seed,
    ...(secondsMost === null ? {} : { goOn: () => performance.now() - begun < 1000 * secondsMost }),
  }
  const { schedule, boundTicks, workDone } = solve(instance, options)
  const milliseconds = Math.round(performance.now() - begun)
  const faults = schedule ? scheduleFaults(instance, schedule) : []
  if (faults.length > 0) throw new Error(`${benchmark.name}: the plan does not hold: ${faults.join('; ')}`)
  const makespan = schedule?.readyTicks[0] ?? null
  const lowerBound = boundTicks[0] ?? null
  return {
    name: benchmark.name,
    makespan,
    lowerBound,
    proven: makespan === lowerBound,
    schedules: workDone,
    milliseconds,
  }
}

export interface BenchmarkFault {
  readonly name: string
  readonly fault: string
}

/** So that one bad instance does not keep the others from being planned. */
export function lineOrFault(
  benchmark: BenchmarkInstance,
  options: Parameters<typeof benchmarkLine>[1],
): BenchmarkLine | BenchmarkFault {
  try {
    return benchmarkLine(benchmark, options)
  } catch (error) {
    if (!(error instanceof InputFault)) throw error
    return { name: benchmark.name, fault: error.message }
  }
}
