/**
 * `npm run bench:rcpsp -- FILE [--schedules N] [--seconds S] [--limit K] [--seed S]`: plans every instance of a benchmark
 * file; prints a JSON line for each and, last, one of what they come to. One that cannot be planned has its fault in its line
 * and is left out of that; then, and when the file cannot be used, it ends with 2.
 */
import { endedBy } from '../../src/plan-file/ended-by.ts'
import { benchmarkArguments } from './benchmark-arguments.ts'
import { benchmarkFile } from './benchmark-file.ts'
import { lineOrFault } from './benchmark-line.ts'
import { type BenchmarkResult, benchmarkMeans } from './benchmark-means.ts'

try {
  const options = benchmarkArguments(process.argv.slice(2))
  const benchmarks = benchmarkFile(options.file)
  const results: BenchmarkResult[] = []
  for (const benchmark of benchmarks.slice(0, options.limit ?? benchmarks.length)) {
    const line = 'fault' in benchmark ? benchmark : lineOrFault(benchmark, options)
    console.log(JSON.stringify(line))
    if ('fault' in line || 'fault' in benchmark) process.exitCode = 2
    else results.push({ benchmark, line })
  }
  console.log(JSON.stringify(benchmarkMeans(results)))
} catch (thrown) {
  process.exitCode = endedBy(thrown)
}
