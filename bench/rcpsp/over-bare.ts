/**
 * `npm run bench:bare -- FILE [--schedules N] [--limit K] [--seed S]`: how much longer the searches of a benchmark file take
 * than as many serial passes over lists drawn beforehand, both taken in this one run. Prints one JSON line.
 */
import { endedBy } from '../../src/plan-file/ended-by.ts'
import { InputFault } from '../../src/plan-file/input-fault.ts'
import { solve } from '../../src/scheduler/turn/index.ts'
import { plainInstance } from '../../src/scheduler/turn/plain/plain-instance.ts'
import { millisecondsOfBarePasses } from './bare-passes.ts'
import { benchmarkArguments } from './benchmark-arguments.ts'
import { benchmarkFile } from './benchmark-file.ts'
import { instanceOfBenchmark } from './instance-of-benchmark.ts'

try {
  const { file, limit, workMost, seed } = benchmarkArguments(process.argv.slice(2))
  let schedules = 0
  let searchMilliseconds = 0
  let bareMilliseconds = 0
  for (const benchmark of benchmarkFile(file).slice(0, limit ?? undefined)) {
    if ('fault' in benchmark) throw new InputFault(benchmark.fault)
    const instance = instanceOfBenchmark(benchmark)
    const plain = plainInstance(instance)
    if (!plain) throw new InputFault(`${benchmark.name}: nothing but resources and precedence may count.`)
    const begun = performance.now()
    const { workDone } = solve(instance, { workMost, seed })
    searchMilliseconds += performance.now() - begun
    bareMilliseconds += workDone === 0 ? 0 : millisecondsOfBarePasses(plain, workDone)
    schedules += workDone
  }
  const times = Number((searchMilliseconds / bareMilliseconds).toFixed(2))
  console.log(
    JSON.stringify({
      schedules,
      searchMilliseconds: Math.round(searchMilliseconds),
      bareMilliseconds: Math.round(bareMilliseconds),
      times,
    }),
  )
} catch (thrown) {
  process.exitCode = endedBy(thrown)
}
