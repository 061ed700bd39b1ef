/**
 * Turns that are to be looked at again, nearest doors first, some at a time: after a change of the hall those that its
 * commit left stale, and after a start of the program all of them, since an earlier one may have judged them otherwise.
 */
import { BOOKING_LONGEST_SECONDS } from '../domain/booking.ts'
import type { SiteId } from '../domain/ids.ts'
import { earlierOf, Instant, instantPlusSeconds, LATEST_AT, laterOf } from '../domain/instant.ts'
import { Conflict } from '../store/store.ts'
import type { Step, WorkParts } from './work-parts.ts'

const TURNS_MOST = 50

export class JudgeWork {
  private readonly parts: WorkParts
  /** After the start: from which doors on each site is still to be looked at; null: all of it is done. */
  private readonly sinceStart = new Map<SiteId, Instant | null>()
  /** Where others write so often that what was looked at is out of date by the end, fewer are looked at in one go. */
  private turnsAtATime = TURNS_MOST

  constructor(parts: WorkParts) {
    this.parts = parts
  }

  /** Looks at the next turns of a site. @throws Conflict when somebody else wrote meanwhile @throws DeciderBusy */
  async step(siteId: SiteId): Promise<Step> {
    try {
      const step = await this.look(siteId)
      if (step !== 'idle') this.turnsAtATime = Math.min(TURNS_MOST, this.turnsAtATime * 2)
      return step
    } catch (fault) {
      if (fault instanceof Conflict) this.turnsAtATime = Math.ceil(this.turnsAtATime / 4)
      throw fault
    }
  }

  private async look(siteId: SiteId): Promise<Step> {
    const { store, clock, decider, commit } = this.parts
    const now = clock()
    const version = await store.planningVersion(siteId)
    const pending = await store.judgedThroughAt(siteId)
    const since = this.sinceStart.has(siteId) ? (this.sinceStart.get(siteId) ?? null) : now
    if (version === null || (pending === null && since === null)) return 'idle'
    const fromAt = laterOf(now, earlierOf(pending ?? LATEST, since ?? LATEST))
    const { span, nextAt } = await this.batchFrom(siteId, fromAt)
    const judgedThroughAt = pending === null || nextAt === null ? null : laterOf(pending, nextAt)
    const operations = [{ kind: 'judge' as const, span, judgedThroughAt }]
    const answer = await decider.decide({ siteId, operations, now })
    if (answer.kind === 'no-site') return 'idle'
    if (answer.kind === 'problems') throw new Error(`Turns cannot be judged: ${answer.problems[0]?.message}`)
    const { changes } = answer.decision
    const isNews = changes !== null && (changes.turns.length > 0 || judgedThroughAt !== pending)
    if (isNews) {
      await commit({
        siteId,
        // That at which it was read what is pending: by now more may be.
        planningVersionExpected: version,
        action: 'judge',
        reason: pending === null ? 'after a start of the program' : 'after a change of the hall',
        at: now,
        changes,
      })
    }
    if (since !== null) this.sinceStart.set(siteId, nextAt)
    return isNews ? 'wrote' : 'looked'
  }

  /**
   * The span of time in which the next turns, and rooms that are to be put back after their bookings, are judged; and
   * from where on it goes on: null when these are all.
   */
  private async batchFrom(siteId: SiteId, fromAt: Instant) {
    const turns = await this.parts.store.turnsDueFrom(siteId, fromAt, this.turnsAtATime)
    const isLast = turns.length < this.turnsAtATime
    // After the last turn of all a room may still be put back: that begins once its booking is clear.
    const toAt = instantPlusSeconds(turns.at(-1)?.dueAt ?? fromAt, isLast ? BOOKING_LONGEST_SECONDS : 1)
    return {
      // A room that is put back counts until it is due, that moment not included.
      span: { fromAt: instantPlusSeconds(fromAt, -1), toAt: earlierOf(toAt, LATEST) },
      nextAt: isLast ? null : toAt,
    }
  }
}

const LATEST = Instant.parse(LATEST_AT)
