/** Changes that are told together. Each is written once, and so is the text that many followers are sent alike. */
import type { SiteId } from '../../domain/ids.ts'
import type { ChangeLogEntry } from '../../store/store.ts'
import { changeEvent } from './event-text.ts'

export class EventBatch {
  /** Of the last change; null: there is none. */
  readonly lastSequence: number | null
  readonly #events: readonly { readonly entry: ChangeLogEntry; readonly text: string }[]
  readonly #chunks = new Map<string, Buffer>()

  /** @param entries  by sequence */
  constructor(entries: readonly ChangeLogEntry[]) {
    this.#events = entries.map((entry) => ({ entry, text: changeEvent(entry) }))
    this.lastSequence = entries.at(-1)?.sequence ?? null
  }

  /** Those of these sites (null: of all) that come after this sequence; empty when there are none. */
  chunk(siteIds: readonly SiteId[] | null, sequence: number): Buffer {
    const firstIndex = this.#events.findIndex(({ entry }) => entry.sequence > sequence)
    if (firstIndex < 0) return Buffer.alloc(0)
    const key = `${firstIndex} ${siteIds?.join(' ') ?? ''}`
    const known = this.#chunks.get(key)
    if (known) return known
    const texts = this.#events
      .slice(firstIndex)
      .filter(({ entry }) => siteIds === null || siteIds.includes(entry.siteId))
      .map(({ text }) => text)
    const chunk = Buffer.from(texts.join(''))
    this.#chunks.set(key, chunk)
    return chunk
  }
}
