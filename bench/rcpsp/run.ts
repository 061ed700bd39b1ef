/**
 * `npm run bench:rcpsp -- FILE [--schedules N] [--seconds S] [--limit K] [--seed S]`: plans every instance of a benchmark
 * file; prints a JSON line for each and, last, one of what they come to. Ends with 2 when the file cannot be used.
 */
import { InputFault } from '../../src/plan-file/input-fault.ts'
import { benchmarkArguments } from './benchmark-arguments.ts'
import { benchmarkFile } from './benchmark-file.ts'
import { benchmarkLine } from './benchmark-line.ts'
import { type BenchmarkResult, benchmarkMeans } from './benchmark-means.ts'

try {
  const options = benchmarkArguments(process.argv.slice(2))
  const benchmarks = benchmarkFile(options.file)
  const results: BenchmarkResult[] = []
  for (const benchmark of benchmarks.slice(0, options.limit ?? benchmarks.length)) {
    const line = benchmarkLine(benchmark, options)
    results.push({ benchmark, line })
    console.log(JSON.stringify(line))
  }
  console.log(JSON.stringify(benchmarkMeans(results)))
} catch (fault) {
  if (!(fault instanceof InputFault)) throw fault
  console.error(fault.message)
  process.exitCode = 2
}
