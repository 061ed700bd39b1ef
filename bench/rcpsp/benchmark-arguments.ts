/** What `npm run bench:rcpsp` is called with. */
import { commandArguments, onlyFile } from '../../src/plan-file/command-arguments.ts'

export interface BenchmarkArguments {
  readonly file: string
  /** Schedules to generate at most for each instance. */
  readonly workMost: number
  /** Of search at most for each instance; null: however long the schedules take. */
  readonly secondsMost: number | null
  /** So many instances, the first of the file; null: all. */
  readonly limit: number | null
  readonly seed: number
}

const WORK_DEFAULT = 5_000
/** Where only time is to end the search. */
const WORK_ENDLESS = 0xffff_ffff
const USAGE =
  'Call it so: npm run bench:rcpsp -- FILE [--schedules N] [--seconds S] [--limit K] [--seed S]; ' +
  `without schedules and seconds, ${WORK_DEFAULT} schedules are tried for each instance.`

/** @param args  without the program @throws InputFault when it was called wrongly; the message says how to */
export function benchmarkArguments(args: readonly string[]): BenchmarkArguments {
  const options = ['schedules', 'seconds', 'limit', 'seed']
  const { files, positiveNumber, wholeNumber } = commandArguments(args, options, USAGE)
  const secondsMost = positiveNumber('seconds')
  return {
    file: onlyFile(files, USAGE),
    workMost: wholeNumber('schedules', 1) ?? (secondsMost === null ? WORK_DEFAULT : WORK_ENDLESS),
    secondsMost,
    limit: wholeNumber('limit', 1),
    seed: wholeNumber('seed', 0) ?? 1,
  }
}
