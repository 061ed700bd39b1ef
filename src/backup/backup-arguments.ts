/** What `npm run backup` is called with. */
import { commandArguments, onlyFile } from '../plan-file/command-arguments.ts'

export interface BackupArguments {
  readonly file: string
  readonly overwrite: boolean
}

const USAGE =
  'Call it so: npm run backup -- FILE [--overwrite]; it copies the database that DATABASE_FILE names, also while the ' +
  'service runs, and leaves a FILE that is there unless it may overwrite it.'

/**
 * @param args  without the program
 * @throws InputFault when it was called wrongly; the message says how to
 * @throws HelpAsked
 */
export function backupArguments(args: readonly string[]): BackupArguments {
  const { files, isSet } = commandArguments(args, [], USAGE, ['overwrite'])
  return { file: onlyFile(files, USAGE), overwrite: isSet('overwrite') }
}
