import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { loadDemo } from '../../seed/load-demo.ts'
import type { Instant } from '../../src/domain/instant.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import type { AroundTurnRequest } from '../../src/worker/around-turn.ts'
import { inProcessDecider } from '../../src/worker/in-process-decider.ts'
import { threadDecider } from '../../src/worker/thread-decider.ts'

test('the thread that decides answers questions around a turn as the code does without a thread, and again the same', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'turnwright-'))
  const file = join(folder, 'hall.sqlite')
  const now = Date.parse('2026-11-23T09:00:00-06:00') as Instant
  const store = await openSqliteStore({ file })
  const { site } = await loadDemo(store, inProcessDecider(store), now)
  const window = { fromAt: now, toAt: (now + 7 * 86_400_000) as Instant }
  const { items } = await store.turns(site.id, window, { limit: 1, after: null })
  const decider = await threadDecider({ file })
  for (const asked of [
    { kind: 'hands-curve', handsMost: 3, doorsAt: null },
    { kind: 'what-would-help' },
  ] as const) {
    const request: AroundTurnRequest = { siteId: site.id, turnId: items[0]!.id, now, asked }
    const answer = await decider.aroundTurn(request)
    expect(answer.kind).toBe(asked.kind)
    expect(answer).toEqual(await inProcessDecider(store).aroundTurn(request))
    expect(await decider.aroundTurn(request)).toEqual(answer)
  }
  await decider.close()
  store.close()
  rmSync(folder, { recursive: true })
})
