/**
 * `npm run verify -- DATABASE_FILE`: says what in the file is not as it must be, and changes nothing. Ends with 0: nothing
 * is wrong; 1: something is; 2: it could not be looked at.
 */
import { Instant } from './domain/instant.ts'
import { isoInZone } from './scheduler/timeline/wall-time.ts'
import { counted } from './scheduler/wording/counted.ts'
import { DatabaseUnusable } from './store/open-sqlite-database.ts'
import { openStoredFile } from './store/stored-file.sqlite.ts'
import { faultsInFile } from './verify/faults-in-file.ts'
import { faultLine } from './verify/stored-fault.ts'
import { ArgumentFault, verifyArguments } from './verify/verify-arguments.ts'

const clock = (): Instant => Instant.parse(Date.now())

/** @returns whether nothing is wrong @throws ArgumentFault @throws DatabaseUnusable */
async function verify(args: readonly string[]): Promise<boolean> {
  const { file, now } = verifyArguments(args, clock)
  const stored = openStoredFile(file)
  try {
    let faults = 0
    for await (const fault of faultsInFile(stored, now)) {
      faults += 1
      console.log(faultLine(fault))
    }
    const { sites, bookings, turns, audit } = stored.counts()
    const holds = [counted(sites, 'site'), counted(bookings, 'booking'), counted(turns, 'turn')].join(', ')
    const found = faults === 0 ? 'nothing is wrong' : counted(faults, 'fault')
    console.log(`${file} as of ${isoInZone(now, 'UTC')}: ${holds}, ${audit} audit entries: ${found}.`)
    return faults === 0
  } finally {
    stored.close()
  }
}

try {
  process.exitCode = (await verify(process.argv.slice(2))) ? 0 : 1
} catch (fault) {
  if (!(fault instanceof DatabaseUnusable || fault instanceof ArgumentFault)) throw fault
  console.error(fault.message)
  process.exitCode = 2
}
