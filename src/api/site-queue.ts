/** Writers of one site take turns, so that they seldom decide on what another is about to change. */
import type { SiteId } from '../domain/ids.ts'

/** A site with more writers waiting than this is told to come back. */
export const WRITERS_WAITING_MOST = 64

/** Too many are waiting already. */
export class QueueFull extends Error {
  override name = 'QueueFull'
}

interface Line {
  waiting: number
  last: Promise<unknown>
}

export class SiteQueue {
  readonly #lines = new Map<SiteId, Line>()
  readonly #waitingMost: number

  /** @param waitingMost  1 or more: how many of one site may be under way or waiting */
  constructor(waitingMost: number) {
    this.#waitingMost = waitingMost
  }

  /**
   * Runs the work when all that came before for this site has ended, well or badly.
   * @throws QueueFull without running it; otherwise whatever the work gives or throws
   */
  async run<Result>(siteId: SiteId, work: () => Promise<Result>): Promise<Result> {
    const line = this.#lines.get(siteId) ?? { waiting: 0, last: Promise.resolve() }
    if (line.waiting >= this.#waitingMost) throw new QueueFull(`${line.waiting} writers wait for ${siteId}`)
    line.waiting += 1
    this.#lines.set(siteId, line)
    const result = line.last.then(work)
    line.last = result.catch(() => undefined)
    try {
      return await result
    } finally {
      line.waiting -= 1
      if (line.waiting === 0) this.#lines.delete(siteId)
    }
  }
}
