/**
 * How long nobody else has written to a site, as far as it shows in its version: other processes count too. Who wrote
 * before the first look is not known; whoever did may have just been cut off by a restart, so it counts as written then.
 */
import type { SiteId } from '../domain/ids.ts'
import type { Instant } from '../domain/instant.ts'

interface Seen {
  readonly version: number
  /** When somebody else was seen to have written, or when it was looked at first. */
  readonly writtenAt: Instant
}

export class QuietSites {
  private readonly quietMilliseconds: number
  private readonly seen = new Map<SiteId, Seen>()

  /** @param quietMilliseconds  0 or more: so long after the last write a site is quiet */
  constructor(quietMilliseconds: number) {
    this.quietMilliseconds = quietMilliseconds
  }

  look(siteId: SiteId, version: number, now: Instant): void {
    if (this.seen.get(siteId)?.version !== version) this.seen.set(siteId, { version, writtenAt: now })
  }

  /** What this program has written by itself disturbs nobody. */
  ownWrite(siteId: SiteId, versionBefore: number | null, versionAfter: number): void {
    const seen = this.seen.get(siteId)
    if (seen?.version === versionBefore) this.seen.set(siteId, { ...seen, version: versionAfter })
  }

  /** @returns false too where it was never looked at */
  isQuiet(siteId: SiteId, now: Instant): boolean {
    return this.quietInMilliseconds(siteId, now) <= 0
  }

  /** How long until the first site becomes quiet that is not; null: all are. */
  soonestQuietMilliseconds(now: Instant): number | null {
    const waits = [...this.seen.keys()]
      .map((id) => this.quietInMilliseconds(id, now))
      .filter((wait) => wait > 0)
    return waits.length === 0 ? null : Math.min(...waits)
  }

  private quietInMilliseconds(siteId: SiteId, now: Instant): number {
    const writtenAt = this.seen.get(siteId)?.writtenAt ?? now
    return writtenAt + this.quietMilliseconds - now
  }
}
