/** What the command is called with. */
import { parseArgs } from 'node:util'
import { z } from 'zod'
import { Instant } from '../domain/instant.ts'

/** The command was called wrongly; the message says how it is called. */
export class ArgumentFault extends Error {
  override name = 'ArgumentFault'
}

export interface VerifyArguments {
  readonly file: string
  readonly now: Instant
}

const USAGE =
  'Call it so: npm run verify -- DATABASE_FILE [--now 2026-11-23T09:00:00-06:00]; without --now it is as of this moment.'
const Moment = z.iso
  .datetime({ offset: true, local: false })
  .transform((text) => Date.parse(text))
  .pipe(Instant)

/** @param args  without the program @throws ArgumentFault */
export function verifyArguments(args: readonly string[], clock: () => Instant): VerifyArguments {
  const { values, positionals } = parsed(args)
  const [file, ...more] = positionals
  if (file === undefined || file === '') throw new ArgumentFault(`The database file is missing. ${USAGE}`)
  if (more.length > 0) throw new ArgumentFault(`One database file at a time. ${USAGE}`)
  if (values.now === undefined) return { file, now: clock() }
  const now = Moment.safeParse(values.now)
  if (!now.success) throw new ArgumentFault(`--now ${values.now} is no moment with its offset. ${USAGE}`)
  return { file, now: now.data }
}

function parsed(args: readonly string[]) {
  try {
    return parseArgs({ args: [...args], options: { now: { type: 'string' } }, allowPositionals: true })
  } catch (error) {
    throw new ArgumentFault(`${error instanceof Error ? error.message : ''}. ${USAGE}`, { cause: error })
  }
}
