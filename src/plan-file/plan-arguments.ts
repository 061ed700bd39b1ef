/** What `npm run plan` is called with. */
import { commandArguments, onlyFile } from './command-arguments.ts'

export interface PlanArguments {
  readonly file: string
  /** Schedules to generate at most. */
  readonly workMost: number
  readonly seed: number
}

const WORK_DEFAULT = 5_000
const USAGE = `Call it so: npm run plan -- FILE.json [--work N] [--seed S]; left out, the work is ${WORK_DEFAULT} schedules and the seed is 1.`

/** @param args  without the program @throws InputFault when it was called wrongly; the message says how to */
export function planArguments(args: readonly string[]): PlanArguments {
  const { files, wholeNumber } = commandArguments(args, ['work', 'seed'], USAGE)
  return {
    file: onlyFile(files, USAGE),
    workMost: wholeNumber('work', 1) ?? WORK_DEFAULT,
    seed: wholeNumber('seed', 0) ?? 1,
  }
}
