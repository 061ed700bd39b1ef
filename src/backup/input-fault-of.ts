/** What went wrong, as what whoever called the command can mend; a bug stays a bug. */
import { ConfigurationFault } from '../configuration.ts'
import { InputFault } from '../plan-file/input-fault.ts'
import { DatabaseUnusable } from '../store/open-sqlite-database.ts'

export function inputFaultOf(thrown: unknown): unknown {
  if (thrown instanceof DatabaseUnusable || thrown instanceof ConfigurationFault)
    return new InputFault(thrown.message, { cause: thrown })
  // Of the operating system: it names the file and what it refused, such as `EACCES: permission denied, open 'x'`.
  if (thrown instanceof Error && 'syscall' in thrown) {
    return new InputFault(`The system refuses it: ${thrown.message}.`, { cause: thrown })
  }
  return thrown
}
