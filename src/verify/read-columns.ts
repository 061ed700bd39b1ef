/** The rows of a site, page by page, each read through its schema or passed over: what cannot be read is told once. */
import { z } from 'zod'
import { Booking } from '../domain/booking.ts'
import type { SiteId } from '../domain/ids.ts'
import type { SetupKind } from '../domain/setup.ts'
import { Turn } from '../domain/turn.ts'
import { JsonText, type StoredColumns, type StoredFile } from '../store/stored-file.ts'

export const ROWS_A_PAGE = 500

/** A turn as its own row has it. */
export const TurnAlone = Turn.omit({ plan: true })
export type TurnAlone = z.infer<typeof TurnAlone>

/** @throws SyntaxError when a text is not JSON */
export const readColumns = (columns: StoredColumns): Readonly<Record<string, unknown>> =>
  Object.fromEntries(
    Object.entries(columns).map(([name, value]) => [
      name,
      value instanceof JsonText ? JSON.parse(value.text) : value,
    ]),
  )

/** Every row of a table, by id. */
export function* storedRows(
  file: StoredFile,
  table: SetupKind | 'booking' | 'turn',
  siteId: SiteId,
): Generator<StoredColumns> {
  let afterId = ''
  for (;;) {
    const page = file.rows(table, siteId, afterId, ROWS_A_PAGE)
    yield* page
    const last = page.at(-1)
    if (!last || page.length < ROWS_A_PAGE) return
    afterId = String(last.id)
  }
}

export const readableBookings = (file: StoredFile, siteId: SiteId): Generator<Booking> =>
  readable(Booking, storedRows(file, 'booking', siteId))

export const readableTurns = (file: StoredFile, siteId: SiteId): Generator<TurnAlone> =>
  readable(TurnAlone, storedRows(file, 'turn', siteId))

function* readable<Row>(schema: z.ZodType<Row>, rows: Iterable<StoredColumns>): Generator<Row> {
  for (const columns of rows) {
    const row = readOrNull(schema, columns)
    if (row !== null) yield row
  }
}

function readOrNull<Row>(schema: z.ZodType<Row>, columns: StoredColumns): Row | null {
  try {
    return schema.parse(readColumns(columns))
  } catch (error) {
    if (error instanceof z.ZodError || error instanceof SyntaxError) return null
    throw error
  }
}
