/**
 * Follows the change log for everybody who is up to date with it: one read a commit, however many follow, and fewer when
 * commits come thick and fast, so that telling does not slow down deciding. It is told of commits of this process, and
 * looks from time to time for those of others; while nobody follows it does neither.
 */
import { setImmediate as nextTurn, setTimeout as pause } from 'node:timers/promises'
import type { SiteId } from '../../domain/ids.ts'
import type { ChangeLogEntry, Store } from '../../store/store.ts'
import { EventBatch } from './event-batch.ts'
import type { EventSettings } from './event-settings.ts'

export interface Follower {
  /** null: every site */
  readonly siteIds: readonly SiteId[] | null
  /** Every change up to this one, of its sites, has been given to it. */
  sequence: number
  /** What comes next, never empty. Must not throw. */
  take(chunk: Buffer): void
}

/** So many changes are read and told at a time. */
export const CHANGES_AT_A_TIME = 500

export interface ChangeFeedOptions {
  readonly store: Pick<Store, 'changesAfter' | 'onCommit'>
  readonly settings: Pick<EventSettings, 'pollMilliseconds' | 'gatherMilliseconds'>
  /** What went wrong while reading; it is tried again at the next look. */
  readonly report: (fault: unknown) => void
}

export class ChangeFeed {
  readonly #options: ChangeFeedOptions
  readonly #followers = new Set<Follower>()
  #position = 0
  #isBehind = false
  #isReading = false
  /** By the clock of the process. */
  #toldAtMilliseconds = Number.NEGATIVE_INFINITY
  #stopLooking: (() => void) | null = null

  constructor(options: ChangeFeedOptions) {
    this.#options = options
  }

  /** Every follower has what was written up to here. Never falls. */
  get position(): number {
    return this.#position
  }

  /**
   * From now on it is given what comes after its own sequence: nothing is left out, and nothing comes twice.
   * @returns false when it is behind the others; it must read on by itself first
   */
  join(follower: Follower): boolean {
    if (follower.sequence < this.#position) return false
    if (this.#followers.size === 0) this.#position = follower.sequence
    this.#followers.add(follower)
    this.#stopLooking ??= this.#startLooking()
    return true
  }

  /** Says nothing when it is not there. */
  leave(follower: Follower): void {
    this.#followers.delete(follower)
    if (this.#followers.size > 0) return
    this.#stopLooking?.()
    this.#stopLooking = null
  }

  #startLooking(): () => void {
    const { store, settings } = this.#options
    const stopListening = store.onCommit(() => this.#look())
    const polling = setInterval(() => this.#look(), settings.pollMilliseconds).unref()
    // Nobody has looked since the first follower read by itself.
    this.#look()
    return () => {
      stopListening()
      clearInterval(polling)
    }
  }

  #look(): void {
    this.#isBehind = true
    if (this.#isReading) return
    this.#isReading = true
    this.#readOn().catch(this.#options.report)
  }

  async #readOn(): Promise<void> {
    try {
      while (this.#isBehind) {
        await this.#gather()
        let entries: readonly ChangeLogEntry[]
        do {
          // Whoever has just committed is answered first, and what was told before has gone out.
          await nextTurn()
          if (this.#followers.size === 0) return
          this.#isBehind = false
          entries = await this.#options.store.changesAfter(null, this.#position, CHANGES_AT_A_TIME)
          this.#tell(new EventBatch(entries))
        } while (entries.length === CHANGES_AT_A_TIME)
      }
    } finally {
      this.#isReading = false
    }
  }

  /** The first change is told at once; those that follow it closely wait for each other. */
  async #gather(): Promise<void> {
    const sinceMilliseconds = performance.now() - this.#toldAtMilliseconds
    const restMilliseconds = this.#options.settings.gatherMilliseconds - sinceMilliseconds
    if (restMilliseconds > 0) await pause(restMilliseconds, undefined, { ref: false })
  }

  /** Whoever joined while this was read is further than where it was read from: then a part of it, or nothing, is new. */
  #tell(batch: EventBatch): void {
    const { lastSequence } = batch
    if (lastSequence === null) return
    this.#toldAtMilliseconds = performance.now()
    this.#position = Math.max(this.#position, lastSequence)
    for (const follower of this.#followers) {
      const chunk = batch.chunk(follower.siteIds, follower.sequence)
      follower.sequence = Math.max(follower.sequence, lastSequence)
      if (chunk.length > 0) follower.take(chunk)
    }
  }
}
