/** A list of the store from its first page to its last. */
import type { Page, PageRequest } from '../../store/store.ts'

const PAGE_ROWS = 200

export async function* everyRow<Row>(read: (page: PageRequest) => Promise<Page<Row>>): AsyncGenerator<Row> {
  let after: string | null = null
  do {
    const page: Page<Row> = await read({ limit: PAGE_ROWS, after })
    yield* page.items
    after = page.nextAfter
  } while (after !== null)
}
