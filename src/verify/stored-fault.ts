/** Something in a database file that is not as it must be. */
import { z } from 'zod'

export interface StoredFault {
  /** null: it is of no site. */
  readonly siteId: string | null
  readonly where: string
  readonly what: string
}

/** One line, whatever is quoted in it. */
export const faultLine = ({ siteId, where, what }: StoredFault): string =>
  `${siteId ?? 'the file'}: ${where}: ${what}`.replaceAll(/\s+/gu, ' ').trim()

/** Why something could not be read, in few words. */
export function whyUnreadable(error: unknown): string {
  if (error instanceof z.ZodError) {
    const [issue] = error.issues
    return `${issue?.path.map(String).join('.') ?? ''}: ${issue?.message ?? ''}`.replace(/^: /, '')
  }
  return error instanceof Error ? error.message : String(error)
}
