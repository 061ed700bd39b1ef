/** What the command that walks along the audit is called with. */
import { parseArgs } from 'node:util'
import { ArgumentFault } from './verify-arguments.ts'

export interface AuditVerifyArguments {
  readonly file: string
  /** The head that an earlier walk printed; null: none is to be looked for. */
  readonly noted: string | null
}

export const AUDIT_VERIFY_USAGE =
  'Call it so: npm run audit:verify -- DATABASE_FILE [--noted HASH]; with --noted the head that was noted must be in the chain.'
const HASH = /^[0-9a-f]{64}$/

/** @param args  without the program @returns null when help was asked for @throws ArgumentFault */
export function auditVerifyArguments(args: readonly string[]): AuditVerifyArguments | null {
  const { values, positionals } = parsed(args)
  if (values.help) return null
  const [file, ...more] = positionals
  if (file === undefined || file === '')
    throw new ArgumentFault(`The database file is missing. ${AUDIT_VERIFY_USAGE}`)
  if (more.length > 0) throw new ArgumentFault(`One database file at a time. ${AUDIT_VERIFY_USAGE}`)
  const noted = values.noted?.toLowerCase() ?? null
  if (noted !== null && !HASH.test(noted))
    throw new ArgumentFault(`--noted ${noted} is no hash of 64 digits, 0-9 and a-f. ${AUDIT_VERIFY_USAGE}`)
  return { file, noted }
}

function parsed(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      options: { help: { type: 'boolean', short: 'h' }, noted: { type: 'string' } },
      allowPositionals: true,
    })
  } catch (error) {
    const why = error instanceof Error ? error.message : ''
    throw new ArgumentFault(`${why}. ${AUDIT_VERIFY_USAGE}`, { cause: error })
  }
}
