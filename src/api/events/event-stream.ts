/** One client's stream of events: writes whole events, knows when the client falls behind, and ends. */
import type { ServerResponse } from 'node:http'
import type { Socket } from 'node:net'
import type { SiteId } from '../../domain/ids.ts'
import type { Follower } from './change-feed.ts'
import type { EventSettings } from './event-settings.ts'
import { KEEP_ALIVE } from './event-text.ts'

export interface EventStreamOptions {
  /** Nothing has been sent yet. */
  readonly response: ServerResponse
  /** The connection, not ended yet; it may end before the response has got it. */
  readonly socket: Socket
  readonly siteIds: readonly SiteId[] | null
  /** What comes after this one is to be sent. */
  readonly sequence: number
  readonly settings: Pick<EventSettings, 'waitingBytesMost' | 'keepAlivesMissedMost'>
  /** Called once, when it ends for whatever reason. */
  readonly onEnd: () => void
}

export class EventStream implements Follower {
  readonly siteIds: readonly SiteId[] | null
  sequence: number
  readonly #options: EventStreamOptions
  #isOpen = true
  #keepAlivesMissed = 0
  /** Whoever waits until more can be written, or the end. */
  #goOn: (() => void) | null = null

  constructor(options: EventStreamOptions) {
    this.siteIds = options.siteIds
    this.sequence = options.sequence
    this.#options = options
    const { response, socket } = options
    response.on('drain', this.#onDrain)
    response.on('close', this.#onGone)
    // A write may still meet a connection that has just broken; its end is told by `close`.
    response.on('error', () => {})
    socket.on('close', this.#onGone)
  }

  get isOpen(): boolean {
    return this.#isOpen
  }

  /** Writes at once, however much waits; a client that lets too much wait is cut off, and may come back. */
  take(chunk: Buffer): void {
    const { response, settings } = this.#options
    if (!this.#isOpen) return
    if (response.writableLength > settings.waitingBytesMost) this.cut()
    else response.write(chunk)
  }

  /** Writes, and resolves when the client has taken enough for more; at once when it is gone. */
  async takeInTime(chunk: Buffer): Promise<void> {
    if (!this.#isOpen || this.#options.response.write(chunk)) return
    await new Promise<void>((resolve) => {
      this.#goOn = resolve
    })
  }

  /** To be called from time to time: shows that the stream is open, and cuts off a client that takes nothing. */
  keepAlive(): void {
    const { response, settings } = this.#options
    if (!response.writableNeedDrain) {
      this.take(KEEP_ALIVE)
      return
    }
    this.#keepAlivesMissed += 1
    if (this.#keepAlivesMissed >= settings.keepAlivesMissedMost) this.cut()
  }

  /** Ends in order, after what waits; a client that does not take it is the matter of whoever stops the server. */
  end(): void {
    if (!this.#isOpen) return
    this.#onGone()
    this.#options.response.end()
  }

  /** Ends at once; what waits is lost, and is sent anew when the client comes back. */
  cut(): void {
    this.#onGone()
    this.#options.socket.destroy()
  }

  readonly #onDrain = (): void => {
    this.#keepAlivesMissed = 0
    this.#release()
  }

  readonly #onGone = (): void => {
    if (!this.#isOpen) return
    this.#isOpen = false
    const { response, socket, onEnd } = this.#options
    response.off('drain', this.#onDrain)
    response.off('close', this.#onGone)
    socket.off('close', this.#onGone)
    this.#release()
    onEnd()
  }

  #release(): void {
    const goOn = this.#goOn
    this.#goOn = null
    goOn?.()
  }
}
