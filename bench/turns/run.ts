/**
 * `npm run bench:turns [-- --count N] [--seed S]`: plans turns drawn at random and prints a table. The plans are the same
 * everywhere; the milliseconds are this machine's.
 */
import os from 'node:os'
import { InputFault } from '../../src/plan-file/input-fault.ts'
import { instanceProblems } from '../../src/scheduler/turn/instance-problems.ts'
import { randomTurn } from './random-turn.ts'
import { turnsArguments } from './turns-arguments.ts'
import { turnsTable } from './turns-table.ts'
import { type PlannedTurn, waysOfPlanning } from './ways-of-planning.ts'

/** Planned before anything is measured: a service has run for a while. */
const WARM_UP_TURNS = 20

function turnFrom(seed: number) {
  const instance = randomTurn(seed)
  const problems = instanceProblems(instance)
  if (problems.length > 0) throw new Error(`turn ${seed} is malformed: ${problems.join('; ')}`)
  return instance
}

try {
  const { count, seed } = turnsArguments(process.argv.slice(2))
  for (let turn = 0; turn < Math.min(count, WARM_UP_TURNS); turn++)
    for (const { planned } of waysOfPlanning) planned(turnFrom(seed + turn))
  const results = waysOfPlanning.map((): PlannedTurn[] => [])
  for (let turn = 0; turn < count; turn++)
    // A list of activities of its own each time: nothing that is remembered of one way helps the next.
    for (const [way, { planned }] of waysOfPlanning.entries())
      results[way]!.push(planned(turnFrom(seed + turn)))
  const processor = os.cpus()[0]?.model ?? 'unknown processor'
  console.log(`${count} turns from seed ${seed}, Node ${process.version}, ${processor}`)
  console.log(turnsTable(waysOfPlanning.map(({ name }, way) => ({ name, results: results[way]! }))))
} catch (fault) {
  if (!(fault instanceof InputFault)) throw fault
  console.error(fault.message)
  process.exitCode = 2
}
