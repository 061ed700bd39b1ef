/** What `npm run restore` is called with. */
import { commandArguments, onlyFile } from '../plan-file/command-arguments.ts'

const USAGE =
  'Call it so: npm run restore -- FILE, with the service stopped; it looks through the backup FILE, puts aside the ' +
  'database that DATABASE_FILE names, and puts a copy of FILE in its place.'

/**
 * @param args  without the program
 * @returns the file to restore
 * @throws InputFault when it was called wrongly; the message says how to
 * @throws HelpAsked
 */
export const restoreArguments = (args: readonly string[]): string =>
  onlyFile(commandArguments(args, [], USAGE).files, USAGE)
