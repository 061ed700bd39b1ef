import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Store } from '../../src/store/store.ts'
import { type DecideRequest, type Decider, DeciderBusy } from '../../src/worker/decider.ts'
import { inProcessDecider } from '../../src/worker/in-process-decider.ts'
import { DeciderStopped, threadDecider } from '../../src/worker/thread-decider.ts'
import { aBooking, aStore, at, booked, siteId } from '../store/a-world.ts'

// A thread takes a second to start from source, so the tests share one where they leave it as they found it.
const folder = mkdtempSync(join(tmpdir(), 'turnwright-'))
const file = join(folder, 'hall.sqlite')
let store: Store
let decider: Decider

beforeAll(async () => {
  store = await aStore({ file })
  decider = await threadDecider({
    file,
    queueMost: 4,
    entry: new URL('./crashing-thread.ts', import.meta.url),
  })
})
afterAll(async () => {
  await decider.close()
  store.close()
  rmSync(folder, { recursive: true })
})

const asking = (title: string): DecideRequest => ({
  siteId,
  operations: [{ kind: 'book', booking: aBooking('dinner', { title }) }],
  now: at(-48),
})

describe('the thread that decides', () => {
  test('answers as the code does without a thread, on what was committed last', async () => {
    expect(decider.isReady()).toBe(true)
    expect(await decider.decide(asking('Dinner'))).toEqual(
      await inProcessDecider(store).decide(asking('Dinner')),
    )
    await store.commit(booked([aBooking('lunch', { room: 'west' })]))
    expect(await decider.decide(asking('Dinner'))).toMatchObject({ kind: 'decided', planningVersion: 2 })
  })

  test('takes as many requests as its queue holds, answers each of them, and refuses the next', async () => {
    const titles = ['One', 'Two', 'Three', 'Four']
    const taken = titles.map((title) => decider.decide(asking(title)))
    await expect(decider.decide(asking('Five'))).rejects.toThrow(DeciderBusy)
    const answers = await Promise.all(taken)
    const titlesAnswered = answers.map(
      (one) => one.kind === 'decided' && one.decision.changes?.bookings[0]?.after.title,
    )
    expect(titlesAnswered).toEqual(titles)
    expect((await decider.decide(asking('Five'))).kind).toBe('decided')
  })

  test('passes on what went wrong with one request, and goes on', async () => {
    await expect(decider.decide(asking('A bug'))).rejects.toThrow('a bug in the code that decides')
    expect((await decider.decide(asking('Dinner'))).kind).toBe('decided')
  })

  test('is started again when it falls over; those who waited are told, the next are answered', async () => {
    const waiting = await Promise.allSettled([
      decider.decide(asking('Fall over')),
      decider.decide(asking('Dinner')),
    ])
    for (const one of waiting)
      expect(one).toMatchObject({ status: 'rejected', reason: expect.any(DeciderStopped) })
    expect(decider.isReady()).toBe(false)
    const answer = await retried(() => decider.decide(asking('Dinner')))
    expect(answer.kind).toBe('decided')
    expect(decider.isReady()).toBe(true)
  })

  test('answers nobody once it is closed, and says so to those who wait', async () => {
    const closing = await threadDecider({ file, entry: new URL('./crashing-thread.ts', import.meta.url) })
    expect(await closing.decide(asking('Dinner'))).toEqual(await decider.decide(asking('Dinner')))
    const waiting = Promise.allSettled([closing.decide(asking('Never'))])
    await closing.close()
    expect(await waiting).toMatchObject([{ status: 'rejected', reason: expect.any(DeciderStopped) }])
    await expect(closing.decide(asking('Dinner'))).rejects.toThrow(DeciderStopped)
    expect(closing.isReady()).toBe(false)
  })

  test('does not start on a file that cannot be used, and says what to do', async () => {
    const missing = join(folder, 'missing.sqlite')
    await expect(threadDecider({ file: missing })).rejects.toThrow(
      'missing.sqlite does not exist. Start the service once',
    )
  })
})

/** As a client would: again while the answer is that it is being started. */
async function retried<Result>(ask: () => Promise<Result>): Promise<Result> {
  for (;;) {
    try {
      return await ask()
    } catch (error) {
      if (!(error instanceof DeciderBusy)) throw error
      await new Promise((resolve) => setTimeout(resolve, 10))
    }
  }
}
