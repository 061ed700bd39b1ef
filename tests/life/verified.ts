/** What the command `verify` says of a file, without its summary. */
import type { Instant } from '../../src/domain/instant.ts'
import { openStoredFile } from '../../src/store/stored-file.sqlite.ts'
import { faultsInFile } from '../../src/verify/faults-in-file.ts'
import { faultLine } from '../../src/verify/stored-fault.ts'

/** @returns one line a fault; none: the file is as it must be */
export async function verified(file: string, now: Instant): Promise<string[]> {
  const stored = openStoredFile(file)
  try {
    const lines: string[] = []
    for await (const fault of faultsInFile(stored, now)) lines.push(faultLine(fault))
    return lines
  } finally {
    stored.close()
  }
}
