/** Pages by key: a page starts after the last row seen, so that rows added in between neither repeat nor hide any. */
import { z } from 'zod'
import { type Page, PageKeyUnknown, type PageRequest } from './store.ts'

/** What a list is ordered by, first the value and then, where values are equal, the id. */
export const InstantThenId = z.tuple([z.int(), z.string()])
export const NameThenId = z.tuple([z.string(), z.string()])
export const IdAlone = z.tuple([z.string()])
export const SequenceAlone = z.tuple([z.int()])

/** @returns null at the start of the list @throws PageKeyUnknown */
export function keyAfter<Key>(schema: z.ZodType<Key>, page: PageRequest): Key | null {
  if (page.after === null) return null
  try {
    return schema.parse(JSON.parse(page.after))
  } catch (error) {
    throw new PageKeyUnknown('The place to go on from is not one that this list has given', { cause: error })
  }
}

/** @param rows up to one more than the page holds, which tells whether there is another page */
export function pageOf<Row>(
  rows: readonly Row[],
  page: PageRequest,
  keyOf: (row: Row) => readonly unknown[],
): Page<Row> {
  const items = rows.slice(0, page.limit)
  const last = items.at(-1)
  return { items, nextAfter: rows.length > page.limit && last ? JSON.stringify(keyOf(last)) : null }
}
