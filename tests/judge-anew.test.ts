/** After a start, what was judged by an earlier program is looked at again. */
import { describe, expect, test } from 'vitest'
import { loadDemo } from '../seed/load-demo.ts'
import type { Instant } from '../src/domain/instant.ts'
import { judgeAnew } from '../src/judge-anew.ts'
import { brokenInvariants } from '../src/scheduler/decide/index.ts'
import { openSqliteStore } from '../src/store/open-sqlite-store.ts'
import { inProcessDecider } from '../src/worker/in-process-decider.ts'

const now = Date.parse('2026-11-23T09:00:00-06:00') as Instant
const window = { fromAt: now, toAt: (now + 30 * 86_400_000) as Instant }

async function aStoredDemo() {
  const store = await openSqliteStore({ file: ':memory:' })
  const decider = inProcessDecider(store)
  const { site } = await loadDemo(store, decider, now)
  const everything = async () => (await store.load(site.id, window, now))!
  return { store, decider, site, everything }
}
const judge = (
  { store, decider }: Awaited<ReturnType<typeof aStoredDemo>>,
  signal = new AbortController().signal,
) => judgeAnew(store, decider, () => now, signal)

describe('after a start', () => {
  test('nothing is written where every turn stands as it was judged', async () => {
    const demo = await aStoredDemo()
    const version = await demo.store.planningVersion(demo.site.id)
    expect(await judge(demo)).toEqual([])
    expect(await demo.store.planningVersion(demo.site.id)).toBe(version)
    demo.store.close()
  })

  test('turns that were judged on other inputs are judged anew, and it is said of how many', async () => {
    const demo = await aStoredDemo()
    const { turns, planningVersion } = await demo.everything()
    const [before] = turns.filter(({ status, dueAt }) => status === 'ready' && dueAt > now)
    // As an earlier program would have left it: its inputs had another hash.
    await demo.store.commit({
      siteId: demo.site.id,
      planningVersionExpected: planningVersion,
      actorId: 'actor_test' as never,
      action: 'change',
      reason: null,
      at: now,
      changes: {
        bookings: [],
        setup: [],
        turns: [{ before: before!, after: { ...before!, inputHash: 'of another program' } }],
      },
    })
    expect(brokenInvariants(await demo.everything())).not.toEqual([])
    expect(await judge(demo)).toEqual(['Harrow Lane Commons: 1 turn to come judged otherwise than before.'])
    expect(brokenInvariants(await demo.everything())).toEqual([])
    demo.store.close()
  })

  test('it goes no further once the program is told to stop', async () => {
    const demo = await aStoredDemo()
    expect(await judge(demo, AbortSignal.abort())).toEqual([])
    demo.store.close()
  })
})
