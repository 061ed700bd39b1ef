/** After a start: what stands was judged by a program that may have been another one. Turns to come are looked at again. */
import { TURNS_LOOKED_AT_MOST } from './api/setup/span-of.ts'
import { ActorId } from './domain/ids.ts'
import { type Instant, instantPlusSeconds } from './domain/instant.ts'
import type { Site } from './domain/site.ts'
import { counted } from './scheduler/decide/counted.ts'
import { Conflict, type Page, type Store } from './store/store.ts'
import type { Decider } from './worker/decider.ts'

/** Who wrote it, in the audit. */
const service = ActorId.parse('actor_service')
const SITES_A_PAGE = 50

/**
 * Site by site, in the background: requests are answered meanwhile. A plan that still holds is kept, and where every
 * turn stands as it stood nothing is written. Where somebody writes at the same time, the site is left to the next start.
 * @returns sentences on the sites where something stands otherwise now
 */
export async function judgeAnew(
  store: Store,
  decider: Decider,
  clock: () => Instant,
  signal: AbortSignal,
): Promise<string[]> {
  const said: string[] = []
  let after: string | null = null
  do {
    const page: Page<Site> = await store.sites({ limit: SITES_A_PAGE, after })
    for (const site of page.items) {
      if (signal.aborted) return said
      const turns = await siteJudgedAnew(store, decider, site, clock())
      if (turns > 0)
        said.push(`${site.name}: ${counted(turns, 'turn')} to come judged otherwise than before.`)
    }
    after = page.nextAfter
  } while (after !== null)
  return said
}

/** @returns how many turns stand otherwise */
async function siteJudgedAnew(store: Store, decider: Decider, site: Site, now: Instant): Promise<number> {
  const lastDueAt = await store.lastTurnDueAt(site.id, now, TURNS_LOOKED_AT_MOST)
  if (lastDueAt === null) return 0
  const span = { fromAt: now, toAt: instantPlusSeconds(lastDueAt, 1) }
  const answer = await decider.decide({
    siteId: site.id,
    operations: [{ kind: 'set-up', writes: [], span }],
    now,
  })
  if (answer.kind !== 'decided') return 0
  const { changes } = answer.decision
  if (!changes || changes.turns.length === 0) return 0
  try {
    await store.commit({
      siteId: site.id,
      planningVersionExpected: answer.planningVersion,
      actorId: service,
      action: 'judge-anew',
      reason: 'after a start of the program',
      at: now,
      changes,
    })
  } catch (fault) {
    if (fault instanceof Conflict) return 0
    throw fault
  }
  return changes.turns.length
}
