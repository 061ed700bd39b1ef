/** The demo is loaded whole, also when the program is killed while it loads. */
import { describe, expect, onTestFinished, test } from 'vitest'
import { lacksDemo, loadDemo } from '../../seed/load-demo.ts'
import { ActorId, SiteId } from '../../src/domain/ids.ts'
import { Instant } from '../../src/domain/instant.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import { stateFromAudit } from '../../src/store/replay.ts'
import { Conflict, type Store } from '../../src/store/store.ts'
import { inProcessDecider } from '../../src/worker/in-process-decider.ts'

/** Monday 23 November 2026, 09:00 in Chicago; and ten days later, when every day of the demo is another. */
const NOW = Instant.parse(Date.UTC(2026, 10, 23, 15))
const LATER = Instant.parse(Date.UTC(2026, 11, 3, 15))

class Killed extends Error {}

async function anEmptyStore(): Promise<Store> {
  const store = await openSqliteStore({ file: ':memory:' })
  onTestFinished(() => store.close())
  return store
}

/** The same store, until so many commits are written. */
function killedAfter(store: Store, commitsMost: number): Store {
  let commits = 0
  return {
    ...store,
    commit: (commit) => {
      if (commits === commitsMost) throw new Killed()
      commits += 1
      return store.commit(commit)
    },
  }
}

const load = (store: Store, now: Instant) => loadDemo(store, inProcessDecider(store), now)
const stateOf = async (store: Store, siteId: SiteId) => ({
  rows: await store.recordedState(siteId),
  people: await store.personDetails(siteId),
})

describe('a load of the demo', () => {
  test('that was killed, wherever, is gone on with by the next start and ends as one in one go', async () => {
    const whole = await anEmptyStore()
    expect(await lacksDemo(whole)).toBe(true)
    const { site, bookings } = await load(whole, NOW)
    expect(await lacksDemo(whole)).toBe(false)
    const refused = bookings.filter(({ decision }) => decision.verdict === 'does-not-fit')
    expect(refused.length).toBeGreaterThan(0)
    const expected = await stateOf(whole, site.id)
    const { items: audit } = await whole.audit(site.id, { limit: 1_000, after: null })

    for (let commits = 0; commits < audit.length; commits++) {
      const store = await anEmptyStore()
      await expect(load(killedAfter(store, commits), NOW)).rejects.toThrow(Killed)
      expect(await lacksDemo(store), `after ${commits} commits`).toBe(true)
      await load(store, commits === 0 ? NOW : LATER)
      expect(await stateOf(store, site.id), `after ${commits} commits`).toEqual(expected)
      expect(await lacksDemo(store)).toBe(false)
      const entries = await store.audit(site.id, { limit: 1_000, after: null })
      expect(stateFromAudit(entries.items)).toEqual(expected.rows)
    }
  })

  test('that found only some rows of the set-up adds those that are missing', async () => {
    const store = await anEmptyStore()
    const firstFew: Store = {
      ...store,
      commit: (commit) => {
        const { setup = [], personDetails: _, ...rest } = commit
        return store.commit({ ...rest, setup: setup.slice(0, 5) })
      },
    }
    await expect(load(killedAfter(firstFew, 1), NOW)).rejects.toThrow()
    const { site } = await load(store, NOW)
    const whole = await anEmptyStore()
    await load(whole, NOW)
    const rows = async (of: Store) => {
      const { rows: tables, people } = await stateOf(of, site.id)
      return { tables: new Map([...tables].filter(([name]) => name !== 'site')), people }
    }
    expect(await rows(store)).toEqual(await rows(whole))
  })

  test('that is complete is not begun again', async () => {
    const store = await anEmptyStore()
    const { site } = await load(store, NOW)
    const before = await stateOf(store, site.id)
    expect((await load(store, LATER)).bookings).toEqual([])
    expect(await stateOf(store, site.id)).toEqual(before)
  })

  test('that two processes do at once puts every row there once', async () => {
    const store = await anEmptyStore()
    let faster = 0
    const contended: Store = {
      ...store,
      commit: async (commit) => {
        // The other one does just this, a moment before.
        faster += 1
        await store.commit(commit)
        throw new Conflict('somebody was faster')
      },
    }
    const { site } = await load(contended, NOW)
    expect(faster).toBeGreaterThan(5)
    const whole = await anEmptyStore()
    await load(whole, NOW)
    expect(await stateOf(store, site.id)).toEqual(await stateOf(whole, site.id))
  })

  test('is not wanted where there is a site already, be it one of the same name that somebody else made', async () => {
    const made = async (id: string) => {
      const store = await anEmptyStore()
      const whole = await anEmptyStore()
      const { site } = await load(whole, NOW)
      await store.commit({
        siteId: SiteId.parse(id),
        planningVersionExpected: null,
        actorId: ActorId.parse('actor_local'),
        action: 'import',
        reason: null,
        at: NOW,
        site: { ...site, id: SiteId.parse(id) },
      })
      return lacksDemo(store)
    }
    expect(await made('site_other')).toBe(false)
    expect(await made('site_harrow-lane')).toBe(false)
  })

  test('of an earlier version, which said nothing at its end, is left as it is', async () => {
    const store = await anEmptyStore()
    const whole = await anEmptyStore()
    const { site } = await load(whole, NOW)
    await store.commit({
      siteId: site.id,
      planningVersionExpected: null,
      actorId: ActorId.parse('actor_demo'),
      action: 'load-demo',
      reason: null,
      at: NOW,
      site,
    })
    expect(await lacksDemo(store)).toBe(false)
  })
})
