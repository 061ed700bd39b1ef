/** Rows in the form in which the audit tells of them. Personal fields never come here. */
import { z } from 'zod'
import { Booking } from '../domain/booking.ts'
import { SiteId } from '../domain/ids.ts'
import { Instant } from '../domain/instant.ts'
import { type SetupKind, setupSchemas } from '../domain/setup.ts'
import { Site } from '../domain/site.ts'
import { Turn } from '../domain/turn.ts'

const TurnAlone = Turn.omit({ plan: true })
/** Before rows had versions, a set-up row was never changed, so that every one of them is at its first. */
const SetupMarks = z.object({ version: z.int().min(1).default(1), retiredAt: Instant.nullable() })
/** Until where turns have been looked at after a change of the hall. */
export const Judging = z.object({ siteId: SiteId, judgedThroughAt: Instant.nullable() })
export type Judging = z.infer<typeof Judging>

const TurnMarks = z.object({ planHash: z.string().nullable() })

/** A set-up row with its version, and since when it is out of use. */
export const recordedSetupRow = (row: object, version: number, retiredAt: number | null) => ({
  ...row,
  version,
  retiredAt,
})

/** A turn with the hash of its plan in place of the plan. */
export function recordedTurn(turn: Turn, planHash: string | null) {
  const { plan: _, ...alone } = turn
  return { ...alone, planHash }
}

/**
 * What an entry of the audit says of a row, with what an earlier version of the program could not know of filled in:
 * entries are never rewritten, rows are read through the schemas of today.
 * @throws Error when it is no row of this table
 */
export function recordedAsOfToday(table: string, row: unknown): unknown {
  if (row === null) return null
  if (isSetupKind(table)) return { ...setupSchemas[table].parse(row), ...SetupMarks.parse(row) }
  switch (table) {
    case 'site':
      return Site.parse(row)
    case 'booking':
      return Booking.parse(row)
    case 'turn':
      return { ...TurnAlone.parse(row), ...TurnMarks.parse(row) }
    case 'judging':
      return Judging.parse(row)
    default:
      throw new Error(`The audit tells of ${table}, which is no table that it may tell of`)
  }
}

const isSetupKind = (table: string): table is SetupKind => Object.hasOwn(setupSchemas, table)
