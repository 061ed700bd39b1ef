/**
 * `npm run plan -- FILE.json [--work N] [--seed S]`: plans one instance and prints the plan. Ends with 0: there is a plan;
 * 1: none was found; 2: the file cannot be planned.
 */
import { endedBy } from './plan-file/ended-by.ts'
import { fileText } from './plan-file/file-text.ts'
import { planArguments } from './plan-file/plan-arguments.ts'
import { planReport, reportText } from './plan-file/plan-report.ts'
import { readInstance } from './plan-file/read-instance.ts'
import { scheduleFaults, solve } from './scheduler/turn/index.ts'

try {
  const { file, workMost, seed } = planArguments(process.argv.slice(2))
  const read = readInstance(fileText(file))
  const begun = performance.now()
  const result = solve(read.instance, { workMost, seed })
  const milliseconds = performance.now() - begun
  const faults = result.schedule ? scheduleFaults(read.instance, result.schedule) : []
  if (faults.length > 0) throw new Error(`the solver made a plan that does not hold: ${faults.join('; ')}`)
  console.log(reportText(planReport(read, result), milliseconds))
  process.exitCode = result.schedule === null ? 1 : 0
} catch (thrown) {
  process.exitCode = endedBy(thrown)
}
