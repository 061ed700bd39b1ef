/**
 * `npm run restore -- FILE`: puts a backup in the place of the database of the service, which must be stopped. Ends with 0:
 * it is there; 2: it is not, the database is as it was, and why.
 */
import { inputFaultOf } from './backup/input-fault-of.ts'
import { restoreArguments } from './backup/restore-arguments.ts'
import { restoreBackup } from './backup/restore-backup.ts'
import { sizeInWords } from './backup/size-in-words.ts'
import { databaseFileFrom } from './configuration.ts'
import { Instant } from './domain/instant.ts'
import { endedBy } from './plan-file/ended-by.ts'

try {
  const file = restoreArguments(process.argv.slice(2))
  const database = databaseFileFrom(process.env)
  const { bytes } = await restoreBackup({
    file,
    database,
    now: Instant.parse(Date.now()),
    onAside: (aside) => console.log(`What was there before is kept as ${aside}.`),
  })
  console.log(`${database} is now what ${file} holds: ${sizeInWords(bytes)}, looked through.`)
} catch (thrown) {
  process.exitCode = endedBy(inputFaultOf(thrown))
}
