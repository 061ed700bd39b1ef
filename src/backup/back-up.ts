/** The database into a file that is not there before it is whole. */
import { existsSync, renameSync, statSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import { InputFault } from '../plan-file/input-fault.ts'
import { copyDatabase } from '../store/copy-database.ts'
import { realPathOf } from '../store/real-path.ts'
import { sideFileEndings, sideFilesOf } from '../store/side-files.ts'
import { flushFolderOf } from './flush.ts'
import { putBeside } from './put-beside.ts'
import { unfinishedFile } from './unfinished-file.ts'

export interface BackupAsked {
  /** The database of the service, which may be running. */
  readonly database: string
  /** Where the backup shall be. */
  readonly file: string
  readonly overwrite: boolean
}

/**
 * @returns how large it is
 * @throws InputFault, DatabaseUnusable: nothing was made, and what was there is as it was
 */
export async function backUp({ database, file, overwrite }: BackupAsked): Promise<{ bytes: number }> {
  if (!existsSync(dirname(resolve(file)))) {
    throw new InputFault(
      `The folder ${dirname(resolve(file))} does not exist. Make it, or name another file.`,
    )
  }
  const place = realPathOf(file)
  refuseOwnFiles(database, place, file)
  refuseTaken(place, file, overwrite)
  const unfinished = unfinishedFile(`${place}.unfinished-${process.pid}`)
  try {
    const fault = await copyDatabase(database, unfinished.path)
    if (fault !== null) throw new InputFault(`${database} ${fault}. No backup was made.`)
    unfinished.finish(database)
    const { size: bytes } = statSync(unfinished.path)
    if (overwrite) renameSync(unfinished.path, place)
    else if (!putBeside(unfinished.path, place)) throw alreadyThere(file)
    flushFolderOf(place)
    return { bytes }
  } finally {
    unfinished.discard()
  }
}

function refuseOwnFiles(database: string, place: string, file: string): void {
  if (!existsSync(database)) return
  const own = realPathOf(database)
  if (['', '.in-use', ...sideFileEndings].some((ending) => place === own + ending)) {
    throw new InputFault(`${file} belongs to the database itself. Name another file.`)
  }
}

function refuseTaken(place: string, file: string, overwrite: boolean): void {
  const found = statSync(place, { throwIfNoEntry: false })
  if (found && !found.isFile()) throw new InputFault(`${file} is no file. Name a file.`)
  if (found && !overwrite) throw alreadyThere(file)
  const [ending] = sideFilesOf(place)
  if (ending === undefined) return
  // They would be taken for those of the backup, and it would be read wrongly.
  throw new InputFault(
    `${file}${ending} is there: a database of that name is open, or was never closed. Name another file.`,
  )
}

const alreadyThere = (file: string): InputFault =>
  new InputFault(`${file} is there already. Name another file, or add --overwrite.`)
