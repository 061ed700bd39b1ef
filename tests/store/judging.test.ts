import { describe, expect, test } from 'vitest'
import type { Booking } from '../../src/domain/booking.ts'
import { SiteId } from '../../src/domain/ids.ts'
import type { Instant } from '../../src/domain/instant.ts'
import type { Turn } from '../../src/domain/turn.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import { judgingQueries } from '../../src/store/read-judging.ts'
import { stateFromAudit } from '../../src/store/replay.ts'
import { Conflict, type Store } from '../../src/store/store.ts'
import { aStoreOnFile } from './a-database-file.ts'
import { aBooking, aCommit, added, aStore, aTurn, at, booked, changes, site, siteId } from './a-world.ts'
import { querySteps } from './query-steps.ts'

const elsewhere = SiteId.parse('site_elm-court')
const all = { limit: 100, after: null }
const words = (rows: readonly { id: string }[]) => rows.map(({ id }) => id.replace('turn_', ''))

const putOff = (judgedThroughAt: Instant | null, planningVersionExpected: number | null = 1) =>
  aCommit({ action: 'judge', planningVersionExpected, changes: changes({ judgedThroughAt }) })

describe('how far turns are judged', () => {
  const effectsOf = async (store: Store) => (await store.audit(siteId, all)).items.at(-1)?.effects

  test('is kept until another commit says otherwise', async () => {
    const store = await aStore()
    expect(await store.judgedThroughAt(siteId)).toBeNull()
    await store.commit(putOff(at(5)))
    expect(await store.judgedThroughAt(siteId)).toBe(at(5))
    await store.commit(booked([aBooking('dinner')], { planningVersionExpected: 2 }))
    expect(await store.judgedThroughAt(siteId)).toBe(at(5))
    await store.commit(putOff(null, 3))
    expect(await store.judgedThroughAt(siteId)).toBeNull()
    expect(await store.judgedThroughAt(elsewhere)).toBeNull()
  })

  test('moves the version by itself, and is told to the audit with what was before, and to no listener', async () => {
    const { store, raw } = await aStoreOnFile()
    const listed = () => raw.prepare('SELECT count(*) FROM change_log').pluck().get()
    const before = listed()
    expect(await store.commit(putOff(at(5)))).toBe(2)
    expect(await effectsOf(store)).toEqual([
      { table: 'judging', id: siteId, before: null, after: { siteId, judgedThroughAt: at(5) } },
    ])
    expect(await store.commit(putOff(null, 2))).toBe(3)
    expect(await effectsOf(store)).toEqual([
      {
        table: 'judging',
        id: siteId,
        before: { siteId, judgedThroughAt: at(5) },
        after: { siteId, judgedThroughAt: null },
      },
    ])
    expect(listed()).toBe(before)
    expect(stateFromAudit((await store.audit(siteId, all)).items)).toEqual(await store.recordedState(siteId))
    expect((await store.recordedState(siteId)).get('judging')?.get(siteId)).toEqual({
      siteId,
      judgedThroughAt: null,
    })
  })

  test('moves nothing where it stands so already', async () => {
    const store = await aStore()
    expect(await store.commit(putOff(null))).toBe(1)
    expect(await store.commit(putOff(at(5)))).toBe(2)
    expect(await store.commit(putOff(at(5), 2))).toBe(2)
    expect((await store.audit(siteId, all)).items).toHaveLength(2)
  })

  test('is written by nobody who looked before somebody else wrote', async () => {
    const { file, store } = await aStoreOnFile()
    await store.commit(booked([aBooking('dinner')]))
    await expect(store.commit(putOff(at(5)))).rejects.toThrow(Conflict)
    const other = await openSqliteStore({ file })
    // Whatever version there is: but what stands before is read, so that only one of two at once can be right.
    const results = await Promise.allSettled([
      store.commit(putOff(at(7), null)),
      other.commit(putOff(at(9), null)),
    ])
    expect(results.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    expect(stateFromAudit((await store.audit(siteId, all)).items)).toEqual(await store.recordedState(siteId))
    other.close()
  })

  test('is written together with the turns that were looked at', async () => {
    const store = await aStore()
    const dinner = aBooking('dinner')
    await store.commit(booked([dinner]))
    const failing: Turn = { ...aTurn(dinner), status: 'failing', plan: null }
    const judged = changes({ turns: [{ before: aTurn(dinner), after: failing }], judgedThroughAt: at(9) })
    await store.commit(aCommit({ planningVersionExpected: 2, changes: judged }))
    expect(await store.turn(siteId, dinner.turnId)).toEqual(failing)
    expect(await store.judgedThroughAt(siteId)).toBe(at(9))
    expect((await effectsOf(store))?.map(({ table }) => table)).toEqual(['turn', 'judging'])
  })
})

describe('the turns from a moment on', () => {
  const bookings = [
    aBooking('west', { doors: 10, room: 'west' }),
    aBooking('east', { doors: 10 }),
    aBooking('past', { doors: -5 }),
    aBooking('far', { doors: 500 }),
    aBooking('failing', { doors: 30 }),
    aBooking('gone', { doors: 50 }),
  ]
  const turns = bookings.map((booking) => {
    if (booking.id === 'booking_failing') return aTurn(booking, { status: 'failing', plan: null })
    return aTurn(booking, booking.id === 'booking_gone' ? { status: 'dropped', plan: null } : {})
  })
  const world = async () => {
    const store = await aStore()
    await store.commit(
      aCommit({ changes: changes({ bookings: bookings.map(added), turns: turns.map(added) }) }),
    )
    return store
  }

  test('are those not dropped that are due then or later, by when they are due, then id, so many at most', async () => {
    const store = await world()
    expect(words(await store.turnsDueFrom(siteId, at(10), 9))).toEqual(['east', 'west', 'failing', 'far'])
    expect(words(await store.turnsDueFrom(siteId, at(-9), 3))).toEqual(['past', 'east', 'west'])
    expect(await store.turnsDueFrom(siteId, at(31), 1)).toEqual([
      { id: 'turn_far', dueAt: at(500), bookingId: 'booking_far' },
    ])
    expect(await store.turnsDueFrom(elsewhere, at(-9), 9)).toEqual([])
  })

  test('are counted', async () => {
    const store = await world()
    expect(await store.countTurnsDueFrom(siteId, at(-9))).toBe(5)
    expect(await store.countTurnsDueFrom(siteId, at(10))).toBe(4)
    expect(await store.countTurnsDueFrom(siteId, at(501))).toBe(0)
    expect(await store.countTurnsDueFrom(elsewhere, at(-9))).toBe(0)
  })
})

describe('the turns to be gone over', () => {
  const polished = (booking: Booking, hours: number | null): Turn => {
    const turn = aTurn(booking)
    return { ...turn, judgement: { ...turn.judgement, polishedAt: hours === null ? null : at(hours) } }
  }
  const soon = aBooking('soon', { doors: 2 })
  const far = aBooking('far', { doors: 40 })

  test('are ready, were not gone over as they stand, are due in the span and have not begun', async () => {
    const store = await aStore()
    const failing = aBooking('failing', { doors: 10 })
    const bookings = [
      aBooking('begun', { doors: 0.5, clear: 1 }),
      aBooking('just-beginning', { doors: 1, room: 'west', clear: 2 }),
      soon,
      aBooking('b-soon', { doors: 2, room: 'west' }),
      far,
    ]
    const done = aBooking('done', { doors: 20 })
    const turns = [
      ...bookings.map((booking) => polished(booking, null)),
      polished(done, -1),
      aTurn(failing, { status: 'failing', plan: null }),
    ]
    await store.commit(
      aCommit({
        changes: changes({ bookings: [...bookings, done, failing].map(added), turns: turns.map(added) }),
      }),
    )
    // A plan starts an hour before doors.
    expect(words(await store.turnsToPolish(siteId, at(0), at(40), 9))).toEqual(['b-soon', 'soon'])
    expect(words(await store.turnsToPolish(siteId, at(0), at(41), 9))).toEqual(['b-soon', 'soon', 'far'])
    expect(await store.turnsToPolish(siteId, at(0), at(41), 1)).toEqual([
      { id: 'turn_b-soon', dueAt: at(2), bookingId: 'booking_b-soon' },
    ])
    expect(await store.turnsToPolish(elsewhere, at(0), at(41), 9)).toEqual([])
  })

  test('are not there again once they were gone over, and are there again when they are planned anew', async () => {
    const store = await aStore()
    await store.commit(booked([soon]))
    const found = async () => words(await store.turnsToPolish(siteId, at(0), at(41), 9))
    expect(await found()).toEqual(['soon'])
    const [raw, fine] = [polished(soon, null), polished(soon, 0)]
    const go = changes({ turns: [{ before: raw, after: fine }] })
    await store.commit(aCommit({ planningVersionExpected: 2, action: 'polish', changes: go }))
    expect(await found()).toEqual([])
    const again = changes({ turns: [{ before: fine, after: raw }] })
    await store.commit(aCommit({ planningVersionExpected: 3, changes: again }))
    expect(await found()).toEqual(['soon'])
  })
})

test('turns to come are looked up in order, and the past is never walked', () => {
  expect(querySteps(judgingQueries)).toEqual([
    'SEARCH judging USING INDEX sqlite_autoindex_judging_1 (site_id=?)',
    'SEARCH turn USING INDEX turn_site_due (site_id=? AND due_at>?)',
    'SEARCH turn USING INDEX turn_site_due (site_id=? AND due_at>?)',
    'SEARCH turn USING INDEX turn_unpolished (site_id=? AND due_at>? AND due_at<?)',
  ])
})

test('a site is founded with turns that are yet to be looked at, or none', async () => {
  const store = await aStore()
  const found = aCommit({
    siteId: elsewhere,
    planningVersionExpected: null,
    site: { ...site, id: elsewhere },
    changes: changes({ judgedThroughAt: at(5) }),
  })
  expect(await store.commit(found)).toBe(1)
  expect(await store.judgedThroughAt(elsewhere)).toBe(at(5))
  expect(await store.judgedThroughAt(siteId)).toBeNull()
})
