/** All streams of events that are open: each is first sent what its client missed, then what happens. */
import { setImmediate as nextTurn } from 'node:timers/promises'
import type { Store } from '../../store/store.ts'
import { Problem } from '../problems.ts'
import { CHANGES_AT_A_TIME, ChangeFeed } from './change-feed.ts'
import { EventBatch } from './event-batch.ts'
import type { EventSettings } from './event-settings.ts'
import { EventStream, type EventStreamOptions } from './event-stream.ts'
import { OPENING, readyEvent } from './event-text.ts'

/** Somebody's stream has to end first. */
const RETRY_AFTER_SECONDS = '10'

export interface EventStreamsOptions {
  readonly store: Pick<Store, 'changesAfter' | 'onCommit'>
  readonly settings: EventSettings
  /** What went wrong where nobody can be answered any more. */
  readonly report: (fault: unknown) => void
}

export class EventStreams {
  readonly #options: EventStreamsOptions
  readonly #feed: ChangeFeed
  readonly #streams = new Set<EventStream>()
  #keepingAlive: NodeJS.Timeout | null = null
  #isClosed = false

  constructor(options: EventStreamsOptions) {
    this.#options = options
    this.#feed = new ChangeFeed(options)
  }

  /** @throws Problem busy */
  refuseWhenFull(): void {
    const { streamsMost } = this.#options.settings
    if (this.#isClosed) throw busy('The service is stopping.')
    if (this.#streams.size >= streamsMost)
      throw busy(`As many streams of events are open as are kept at once: ${streamsMost}.`)
  }

  /** The head of the response is set. It is sent to until the client goes or is cut off, or until `close`. */
  open(place: Pick<EventStreamOptions, 'response' | 'socket' | 'siteIds' | 'sequence'>): void {
    // The client may have gone while it was read what it asked for; nobody would say so again.
    if (place.socket.destroyed) return
    const stream = new EventStream({
      ...place,
      settings: this.#options.settings,
      onEnd: () => this.#forget(stream),
    })
    this.#streams.add(stream)
    this.#keepingAlive ??= setInterval(
      () => this.#keepAlive(),
      this.#options.settings.keepAliveMilliseconds,
    ).unref()
    this.#bringUpToDate(stream).catch((fault) => {
      stream.cut()
      this.#options.report(fault)
    })
  }

  /** Ends every stream, and lets no other begin. */
  close(): void {
    this.#isClosed = true
    for (const stream of this.#streams) stream.end()
  }

  /** Reads on for this one alone, as fast as its client takes it, until it has what the others have. */
  async #bringUpToDate(stream: EventStream): Promise<void> {
    await stream.takeInTime(OPENING)
    while (stream.isOpen) {
      // What has been told to others was written before this reading, so it is part of it.
      const { position } = this.#feed
      const entries = await this.#options.store.changesAfter(
        stream.siteIds,
        stream.sequence,
        CHANGES_AT_A_TIME,
      )
      const batch = new EventBatch(entries)
      const isWhole = entries.length < CHANGES_AT_A_TIME
      const chunk = batch.chunk(stream.siteIds, stream.sequence)
      stream.sequence = Math.max(batch.lastSequence ?? stream.sequence, isWhole ? position : 0)
      if (chunk.length > 0) await stream.takeInTime(chunk)
      if (!stream.isOpen) return
      if (isWhole && this.#feed.join(stream)) return stream.take(readyEvent(stream.sequence))
      await nextTurn()
    }
  }

  #keepAlive(): void {
    for (const stream of this.#streams) stream.keepAlive()
  }

  #forget(stream: EventStream): void {
    this.#streams.delete(stream)
    this.#feed.leave(stream)
    if (this.#streams.size > 0) return
    if (this.#keepingAlive) clearInterval(this.#keepingAlive)
    this.#keepingAlive = null
  }
}

const busy = (detail: string): Problem =>
  new Problem('busy', detail, {}, { 'retry-after': RETRY_AFTER_SECONDS })
