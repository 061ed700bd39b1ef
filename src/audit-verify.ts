/**
 * `npm run audit:verify -- DATABASE_FILE [--noted HASH]`: says whether the audit is the chain that was written, and changes
 * nothing. Ends with 0: it is whole; 1: it is not, or does not hold the head that was noted; 2: it could not be looked at.
 */
import { counted } from './scheduler/wording/counted.ts'
import { DatabaseUnusable } from './store/open-sqlite-database.ts'
import { openStoredFile } from './store/stored-file.sqlite.ts'
import {
  AUDIT_VERIFY_USAGE,
  type AuditVerifyArguments,
  auditVerifyArguments,
} from './verify/audit-verify-arguments.ts'
import { isDamage } from './verify/is-damage.ts'
import { ArgumentFault } from './verify/verify-arguments.ts'
import { walkAuditChain } from './verify/walk-audit-chain.ts'

/** @returns whether the chain is whole and holds what was noted @throws DatabaseUnusable */
function auditVerify({ file, noted }: AuditVerifyArguments): boolean {
  const stored = openStoredFile(file)
  try {
    const { entries, head, notedSequence, fault } = walkAuditChain(stored, { noted })
    if (fault) {
      console.log(`entry ${fault.sequence} of the audit ${fault.what}`)
      return false
    }
    console.log(`${counted(entries, 'entry', 'entries')}, chain whole, ${head ? `head ${head}` : 'no head'}`)
    if (noted === null) return true
    console.log(
      notedSequence === null
        ? 'the noted head is not in the chain: entries are gone from its end, or it was written anew'
        : `the noted head is that of entry ${notedSequence}`,
    )
    return notedSequence !== null
  } catch (error) {
    if (!isDamage(error)) throw error
    throw new DatabaseUnusable(`${file} is damaged. Restore a backup.`, { cause: error })
  } finally {
    stored.close()
  }
}

try {
  const asked = auditVerifyArguments(process.argv.slice(2))
  if (asked) process.exitCode = auditVerify(asked) ? 0 : 1
  else console.log(AUDIT_VERIFY_USAGE)
} catch (fault) {
  if (!(fault instanceof DatabaseUnusable || fault instanceof ArgumentFault)) throw fault
  console.error(fault.message)
  process.exitCode = 2
}
