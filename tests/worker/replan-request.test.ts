/** The thread that decides plans a part-done turn as the code does without a thread. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, onTestFinished, test } from 'vitest'
import { TurnId } from '../../src/domain/ids.ts'
import { inProcessDecider } from '../../src/worker/in-process-decider.ts'
import { threadDecider } from '../../src/worker/thread-decider.ts'
import { aBooking, aCommit, aStore, at, siteId } from '../store/a-world.ts'

test('a turn is planned from now in the thread as in the code, and one that is not there is said not to be', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'turnwright-'))
  const file = join(folder, 'hall.sqlite')
  const store = await aStore({ file })
  const decider = await threadDecider({ file })
  onTestFinished(async () => {
    await decider.close()
    store.close()
    rmSync(folder, { recursive: true })
  })
  const dinner = aBooking('dinner')
  const asked = await inProcessDecider(store).decide({
    siteId,
    operations: [{ kind: 'book', booking: dinner }],
    now: at(-48),
  })
  if (asked.kind !== 'decided' || !asked.decision.changes) throw new Error('the dinner was not taken')

  await store.commit(
    aCommit({ planningVersionExpected: asked.planningVersion, changes: asked.decision.changes }),
  )
  const progress = { done: [], running: [], missing: [], added: [], stands: null }
  const request = { siteId, turnId: dinner.turnId, progress, askedAt: at(-47) }
  const answer = await decider.replan(request)
  expect(answer.kind).toBe('replanned')
  expect(answer).toEqual(await inProcessDecider(store).replan(request))
  expect(await decider.replan({ ...request, turnId: TurnId.parse('turn_nobody') })).toEqual({
    kind: 'no-turn',
  })
})
