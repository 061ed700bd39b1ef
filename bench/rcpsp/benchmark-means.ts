/** What all instances of a file come to. */
import type { BenchmarkInstance } from './benchmark-file.ts'
import type { BenchmarkLine } from './benchmark-line.ts'
import { criticalPathTicks, instanceOfBenchmark } from './instance-of-benchmark.ts'

/** Of the instances for which it is known and a plan was found; null: of none. */
type Mean = number | null

export interface BenchmarkMeans {
  readonly instances: number
  /** A plan was found. */
  readonly planned: number
  readonly makespan: Mean
  /** The mean of 100 × (makespan − p) / p, p the critical path of the shortest modes, found here. */
  readonly percentOverCriticalPath: Mean
  /** The same with the critical path that the file says. */
  readonly percentOverCpLowerBound: Mean
  /** The mean of 100 × (makespan − optimum) / optimum. */
  readonly percentOverOptimum: Mean
  /** The mean of 100 × (makespan − best) / best, best the shortest makespan that was published. */
  readonly percentOverBestKnown: Mean
  /** Of all instances, with a plan or not; 0 to 1. */
  readonly provenShare: Mean
  /** Of those whose optimum is known; 0 to 1. */
  readonly optimumShare: Mean
  readonly schedules: Mean
  readonly milliseconds: Mean
}

export interface BenchmarkResult {
  readonly benchmark: BenchmarkInstance
  readonly line: BenchmarkLine
}

export function benchmarkMeans(results: readonly BenchmarkResult[]): BenchmarkMeans {
  const planned = results.flatMap(({ benchmark, line: { makespan } }) =>
    makespan === null ? [] : [{ benchmark, makespan }],
  )
  const over = (referenceOf: (benchmark: BenchmarkInstance) => number | null): Mean =>
    meanOf(
      planned.flatMap(({ benchmark, makespan }) => {
        const reference = referenceOf(benchmark)
        return reference === null || reference === 0 ? [] : [(100 * (makespan - reference)) / reference]
      }),
    )
  return {
    instances: results.length,
    planned: planned.length,
    makespan: meanOf(planned.map(({ makespan }) => makespan)),
    percentOverCriticalPath: over((benchmark) => criticalPathTicks(instanceOfBenchmark(benchmark))),
    percentOverCpLowerBound: over(({ cpLowerBound }) => cpLowerBound),
    percentOverOptimum: over(({ optimum }) => optimum),
    percentOverBestKnown: over(({ bestKnown }) => bestKnown),
    provenShare: meanOf(results.map(({ line }) => (line.proven ? 1 : 0))),
    optimumShare: meanOf(
      results.flatMap(({ benchmark: { optimum }, line: { makespan } }) =>
        optimum === null ? [] : [makespan === optimum ? 1 : 0],
      ),
    ),
    schedules: meanOf(results.map(({ line }) => line.schedules)),
    milliseconds: meanOf(results.map(({ line }) => line.milliseconds)),
  }
}

/** To four places behind the point. */
function meanOf(values: readonly number[]): Mean {
  if (values.length === 0) return null
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length
  return Math.round(mean * 10_000) / 10_000
}
