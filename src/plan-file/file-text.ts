import { readFileSync } from 'node:fs'
import { InputFault } from './input-fault.ts'

/** The text of a file that somebody named. @throws InputFault when it cannot be read */
export function fileText(file: string): string {
  try {
    // Some editors begin a file with a byte order mark, which is no JSON.
    return readFileSync(file, 'utf8').replace(/^\uFEFF/, '')
  } catch (error) {
    throw new InputFault(`${file} cannot be read: ${error instanceof Error ? error.message : ''}.`, {
      cause: error,
    })
  }
}
