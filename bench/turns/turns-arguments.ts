/** What `npm run bench:turns` is called with. */
import { commandArguments } from '../../src/plan-file/command-arguments.ts'
import { InputFault } from '../../src/plan-file/input-fault.ts'

export interface TurnsArguments {
  /** Turns to plan. */
  readonly count: number
  /** Of the first turn; the next one has the next. */
  readonly seed: number
}

const USAGE = 'Call it so: npm run bench:turns [-- --count N] [--seed S]; left out, 500 turns from seed 1 on.'

/** @param args  without the program @throws InputFault when it was called wrongly; the message says how to */
export function turnsArguments(args: readonly string[]): TurnsArguments {
  const { files, wholeNumber } = commandArguments(args, ['count', 'seed'], USAGE)
  if (files.length > 0) throw new InputFault(`There is no file to give. ${USAGE}`)
  return { count: wholeNumber('count', 1) ?? 500, seed: wholeNumber('seed', 0) ?? 1 }
}
