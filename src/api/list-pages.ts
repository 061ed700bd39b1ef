/** Lists come in pages: `limit` rows and an opaque cursor for the next page. */
import { z } from 'zod'
import type { Page, PageRequest } from '../store/store.ts'
import { invalidInput, type Problem } from './problems.ts'

const LIMIT_MOST = 200
const LIMIT_DEFAULT = 50

const limitMessage = `expected a whole number from 1 to ${LIMIT_MOST}`

export const PageQuery = z.strictObject({
  limit: z
    .string()
    .regex(/^[0-9]{1,3}$/, { error: limitMessage })
    .transform(Number)
    .refine((limit) => limit >= 1 && limit <= LIMIT_MOST, { error: limitMessage })
    .default(LIMIT_DEFAULT)
    .meta({ description: `Rows a page: 1 to ${LIMIT_MOST}, ${LIMIT_DEFAULT} when left out` }),
  cursor: z.string().max(1_000).optional().meta({ description: 'nextCursor of the page before' }),
})
export type PageQuery = z.infer<typeof PageQuery>

export const pageOf = <Item extends z.ZodType>(item: Item) =>
  z.object({
    items: z.array(item),
    nextCursor: z.string().nullable().meta({ description: 'null: this is the last page' }),
  })

/** @throws Problem when the cursor is not one that was handed out */
export function pageRequest(query: PageQuery): PageRequest {
  if (query.cursor === undefined) return { limit: query.limit, after: null }
  const after = Buffer.from(query.cursor, 'base64url').toString('utf8')
  if (after === '' || cursorFrom(after) !== query.cursor) throw unknownCursor()
  return { limit: query.limit, after }
}

/** For a cursor that this list has not handed out. */
export const unknownCursor = (): Problem =>
  invalidInput([
    { at: '/cursor', in: 'query', message: 'expected nextCursor of the page before, as it came' },
  ])

const cursorFrom = (after: string): string => Buffer.from(after, 'utf8').toString('base64url')

export const pageAnswer = <Row, Item>(page: Page<Row>, item: (row: Row) => Item) => ({
  items: page.items.map(item),
  nextCursor: page.nextAfter === null ? null : cursorFrom(page.nextAfter),
})

/** Every row, read page by page, up to a bound. */
export async function rowsUpTo<Row>(
  rowsMost: number,
  read: (page: PageRequest) => Promise<Page<Row>>,
): Promise<Row[]> {
  const rows: Row[] = []
  let after: string | null = null
  do {
    const page: Page<Row> = await read({ limit: LIMIT_MOST, after })
    rows.push(...page.items)
    after = page.nextAfter
  } while (after !== null && rows.length < rowsMost)
  return rows.slice(0, rowsMost)
}
