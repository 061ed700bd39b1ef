/** What the demo shows: a hall that is set up whole but for two things, a tight Saturday, one request that is refused. */
import { describe, expect, test } from 'vitest'
import { loadDemo } from '../../seed/load-demo.ts'
import type { Instant } from '../../src/domain/instant.ts'
import type { Shift } from '../../src/domain/shift.ts'
import { checkSetup } from '../../src/scheduler/check/index.ts'
import { brokenInvariants, decide } from '../../src/scheduler/decide/index.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import { inProcessDecider } from '../../src/worker/in-process-decider.ts'

/** Monday 23 November 2026, 09:00 in Chicago. */
const now = Date.parse('2026-11-23T09:00:00-06:00') as Instant

async function loaded() {
  const store = await openSqliteStore({ file: ':memory:' })
  const { site, bookings } = await loadDemo(store, inProcessDecider(store), now)
  const window = { fromAt: now, toAt: (now + 90 * 86_400_000) as Instant }
  const snapshot = await store.load(site.id, window, now)
  if (!snapshot) throw new Error('the demo was not loaded')
  return { store, snapshot, bookings }
}

describe('the demo', () => {
  test('is set up so that an old hand finds two things, both meant to be found', async () => {
    const { store, snapshot } = await loaded()
    expect(checkSetup(snapshot, now).map(({ message }) => message)).toEqual([
      'the North store holds 18 round tables, layout games floor leaves 24 to put away',
      expect.stringContaining('Garden Room'),
    ])
    store.close()
  })

  test('keeps every promise it makes', async () => {
    const { store, snapshot } = await loaded()
    expect(brokenInvariants(snapshot)).toEqual([])
    store.close()
  })

  test('refuses one request, the lunch right after the overflow, because the room cannot be turned', async () => {
    const { store, bookings } = await loaded()
    const refused = bookings.filter(({ decision }) => decision.verdict === 'does-not-fit')
    expect(refused.map(({ booking }) => booking.title)).toEqual(['Family lunch'])
    expect(refused[0]?.decision.reasons[0]?.code).toBe('turn-before-too-long')
    store.close()
  })

  test('has a Saturday dance whose turn is tight, and fits only with the sixth pair of hands', async () => {
    const { store, snapshot, bookings } = await loaded()
    const dance = bookings.find(({ booking }) => booking.title === 'Barn dance')
    expect(dance?.decision.verdict).toBe('tight')
    expect(dance?.decision.before?.hands).toMatchObject({ onDuty: 6, needed: 6 })
    const before = snapshot.shifts.find(({ id }) => id === 'shift_saturday')!
    const four: Shift = { ...before, crew: { kind: 'hands', hands: 4, skills: [], adults: true } }
    const withFive = decide(snapshot, [
      {
        kind: 'set-up',
        writes: [{ kind: 'shift', before, after: four, retire: false }],
        span: snapshot.window,
        restFromAt: null,
      },
    ])
    expect(withFive.affected.map(({ bookingId, verdict }) => [bookingId, verdict])).toContainEqual([
      dance?.booking.id,
      'does-not-fit',
    ])
    store.close()
  })

  test('serves two services on Sunday with an overflow room, and a memorial dinner at short notice', async () => {
    const { store, bookings } = await loaded()
    for (const title of ['Early service', 'Main service', 'Main service, overflow', 'Memorial dinner']) {
      const decided = bookings.find(({ booking }) => booking.title === title)
      expect(decided?.decision.verdict, title).not.toBe('does-not-fit')
    }
    store.close()
  })
})
