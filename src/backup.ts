/**
 * `npm run backup -- FILE [--overwrite]`: copies the database of the service, also while it runs. Ends with 0: the backup
 * is there and whole; 2: none was made, and why.
 */
import { backUp } from './backup/back-up.ts'
import { backupArguments } from './backup/backup-arguments.ts'
import { inputFaultOf } from './backup/input-fault-of.ts'
import { sizeInWords } from './backup/size-in-words.ts'
import { databaseFileFrom } from './configuration.ts'
import { endedBy } from './plan-file/ended-by.ts'

try {
  const { file, overwrite } = backupArguments(process.argv.slice(2))
  const database = databaseFileFrom(process.env)
  const begun = performance.now()
  const { bytes } = await backUp({ database, file, overwrite })
  const seconds = ((performance.now() - begun) / 1000).toFixed(1)
  console.log(`${file} is a backup of ${database}: ${sizeInWords(bytes)}, looked through, in ${seconds} s.`)
} catch (thrown) {
  process.exitCode = endedBy(inputFaultOf(thrown))
}
