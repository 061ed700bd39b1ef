/** Plans of the coming days gone over at leisure, nearest doors first. What is gone over is marked, until it changes. */
import type { SiteId, TurnId } from '../domain/ids.ts'
import { instantPlusSeconds } from '../domain/instant.ts'
import type { Step, WorkParts } from './work-parts.ts'

/** So far ahead: further on too much will change. */
const AHEAD_SECONDS = 21 * 86_400
const TURNS_AT_A_TIME = 4

export class PolishWork {
  private readonly parts: WorkParts
  /** Of which nothing could be said just now: they must not keep those after them waiting. */
  private readonly passedOver = new Map<SiteId, Set<TurnId>>()

  constructor(parts: WorkParts) {
    this.parts = parts
  }

  /** Goes over the next plans of a site. @throws Conflict when somebody else wrote meanwhile @throws DeciderBusy */
  async step(siteId: SiteId): Promise<Step> {
    const { clock, decider, commit } = this.parts
    const now = clock()
    const turnIds = await this.nextTurnIds(siteId)
    if (turnIds.length === 0) {
      // They are tried again the next time that something is looked for.
      this.passedOver.delete(siteId)
      return 'idle'
    }
    const answer = await decider.decide({ siteId, operations: [{ kind: 'polish', turnIds }], now })
    const changes = answer.kind === 'decided' ? answer.decision.changes : null
    const changed = new Set(changes?.turns.map(({ after }) => after.id))
    this.passOver(
      siteId,
      turnIds.filter((id) => !changed.has(id)),
    )
    if (answer.kind !== 'decided' || changes === null || changed.size === 0) return 'looked'
    const { planningVersion: planningVersionExpected } = answer
    await commit({ siteId, planningVersionExpected, action: 'polish', reason: null, at: now, changes })
    return 'wrote'
  }

  private async nextTurnIds(siteId: SiteId): Promise<TurnId[]> {
    const { store, clock } = this.parts
    const now = clock()
    const untilAt = instantPlusSeconds(now, AHEAD_SECONDS)
    const passed = this.passedOver.get(siteId) ?? new Set()
    const turns = await store.turnsToPolish(siteId, now, untilAt, TURNS_AT_A_TIME + passed.size)
    return turns
      .map(({ id }) => id)
      .filter((id) => !passed.has(id))
      .slice(0, TURNS_AT_A_TIME)
  }

  private passOver(siteId: SiteId, turnIds: readonly TurnId[]): void {
    const passed = this.passedOver.get(siteId) ?? new Set()
    for (const id of turnIds) passed.add(id)
    this.passedOver.set(siteId, passed)
  }
}
