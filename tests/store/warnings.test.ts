import { describe, expect, test } from 'vitest'
import type { Booking } from '../../src/domain/booking.ts'
import { SiteId } from '../../src/domain/ids.ts'
import type { Turn } from '../../src/domain/turn.ts'
import { warningQueries } from '../../src/store/read-warnings.ts'
import { type Page, PageKeyUnknown, type PageRequest } from '../../src/store/store.ts'
import { aStoreOnFile } from './a-database-file.ts'
import {
  aBooking,
  aCommit,
  actorId,
  added,
  aPlan,
  aPlanWithDuty,
  aStore,
  aTurn,
  at,
  changes,
  siteId,
} from './a-world.ts'
import { querySteps } from './query-steps.ts'

const elsewhere = SiteId.parse('site_elm-court')
const words = (rows: readonly { id: string }[]) => rows.map(({ id }) => id.replace(/^[a-z]+_/, ''))

/** Reads a list to its end, row by row. */
async function rowByRow<Row>(read: (page: PageRequest) => Promise<Page<Row>>): Promise<Row[]> {
  const rows: Row[] = []
  for (let after: string | null = null, count = 0; count < 20; count++) {
    const page: Page<Row> = await read({ limit: 1, after })
    rows.push(...page.items)
    after = page.nextAfter
    if (after === null) return rows
  }
  throw new Error('The list does not end')
}

const warned = (booking: Booking, since: number | null, rest: object = {}): Turn => {
  const turn = aTurn(booking, rest)
  return { ...turn, judgement: { ...turn.judgement, warnedSince: since === null ? null : at(since) } }
}

describe('turns that are warned of', () => {
  const east = aBooking('east', { doors: 10 })
  const west = aBooking('west', { doors: 10, room: 'west' })
  const now = aBooking('now', { doors: 0 })
  const past = aBooking('past', { doors: -5 })
  const fine = aBooking('fine', { doors: 30 })
  const gone = aBooking('gone', { doors: 50 })
  const bookings = [east, west, now, past, fine, gone]
  const turns = [
    warned(west, -9, { status: 'failing', plan: null }),
    warned(east, -1),
    warned(now, -2),
    warned(past, -20),
    warned(fine, null),
    warned(gone, -3, { status: 'dropped', plan: null }),
  ]
  const world = async () => {
    const store = await aStore()
    await store.commit(
      aCommit({ changes: changes({ bookings: bookings.map(added), turns: turns.map(added) }) }),
    )
    return store
  }

  test('are those that are not dropped and due from now on, by when they are due, then id, with their plans', async () => {
    const store = await world()
    const found = await rowByRow((page) => store.warnedTurns(siteId, at(0), page))
    expect(words(found)).toEqual(['now', 'east', 'west'])
    expect(found[1]).toEqual(turns[1])
    expect(await rowByRow((page) => store.warnedTurns(elsewhere, at(0), page))).toEqual([])
  })

  test('start at the moment asked for, also on the second page', async () => {
    const store = await world()
    const { nextAfter } = await store.warnedTurns(siteId, at(-9), { limit: 1, after: null })
    const { items } = await store.warnedTurns(siteId, at(1), { limit: 9, after: nextAfter })
    expect(words(items)).toEqual(['east', 'west'])
    const nonsense = store.warnedTurns(siteId, at(0), { limit: 9, after: '["x"]' })
    await expect(nonsense).rejects.toThrow(PageKeyUnknown)
  })

  test('are no longer there once they are not warned of, and are there once they are', async () => {
    const store = await world()
    const swapped = changes({
      turns: [
        { before: turns[1]!, after: warned(east, null) },
        { before: turns[4]!, after: warned(fine, 0) },
      ],
    })
    await store.commit(aCommit({ planningVersionExpected: 2, changes: swapped }))
    expect(words(await rowByRow((page) => store.warnedTurns(siteId, at(0), page)))).toEqual([
      'now',
      'west',
      'fine',
    ])
  })
})

describe('bookings at risk', () => {
  const risk = { riskAccepted: { actorId, why: 'It is as it is', acceptedAt: at(-48) } }

  test('are those that somebody answers for, not cancelled and not over, by doors, then id', async () => {
    const store = await aStore()
    const bookings = [
      aBooking('west', { doors: 10, room: 'west', ...risk }),
      aBooking('east', { doors: 10, ...risk }),
      aBooking('running', { doors: -700, clear: 1, room: 'west', ...risk }),
      aBooking('over', { doors: -3, clear: 0, ...risk }),
      aBooking('gone', { doors: 20, status: 'CANCELLED', ...risk }),
      aBooking('fine', { doors: 30 }),
    ]
    await store.commit(aCommit({ changes: changes({ bookings: bookings.map(added) }) }))
    const found = await rowByRow((page) => store.bookingsAtRisk(siteId, at(0), page))
    expect(words(found)).toEqual(['running', 'east', 'west'])
    expect(found[1]).toEqual(bookings[1])
    expect(await rowByRow((page) => store.bookingsAtRisk(elsewhere, at(0), page))).toEqual([])
  })

  test('are one more when a risk is taken, and one less when the booking comes to fit', async () => {
    const store = await aStore()
    const fine = aBooking('fine', { doors: 30 })
    const bold = aBooking('bold', { doors: 10, ...risk })
    await store.commit(aCommit({ changes: changes({ bookings: [added(fine), added(bold)] }) }))
    const swapped = changes({
      bookings: [
        { before: fine, after: { ...aBooking('fine', { doors: 30, ...risk }), version: 2 } },
        { before: bold, after: { ...bold, riskAccepted: null, version: 2 } },
      ],
    })
    await store.commit(aCommit({ planningVersionExpected: 2, changes: swapped }))
    expect(words(await rowByRow((page) => store.bookingsAtRisk(siteId, at(0), page)))).toEqual(['fine'])
  })
})

test('what is warned of is looked up in order, and never walked for through all turns and bookings', () => {
  expect(querySteps(warningQueries)).toEqual([
    'SEARCH turn USING INDEX turn_warned (site_id=? AND (due_at,id)>(?,?))',
    'SEARCH plan USING INDEX sqlite_autoindex_plan_1 (turn_id=?) LEFT-JOIN',
    'SEARCH booking USING INDEX booking_at_risk (site_id=? AND (doors_at,id)>(?,?))',
  ])
})

describe('the row of a turn', () => {
  test('tells what it is for, until when it holds somebody, since when it is warned of and when it was gone over', async () => {
    const { store, raw } = await aStoreOnFile()
    const row = () =>
      raw.prepare(`SELECT purpose, held_until_at, warned_since, polished_at FROM turn`).raw().get()
    const dinner = aBooking('dinner')
    const plain = aTurn(dinner)
    await store.commit(aCommit({ changes: changes({ bookings: [added(dinner)], turns: [added(plain)] }) }))
    expect(row()).toEqual(['prepare', null, null, null])
    const judgement = { ...plain.judgement, warnedSince: at(-3), polishedAt: at(-2) }
    const plan = aPlanWithDuty(dinner, 2)
    const busy: Turn = { ...plain, purpose: 'return-home', plan, judgement }
    const change = changes({ turns: [{ before: plain, after: busy }] })
    await store.commit(aCommit({ planningVersionExpected: 2, changes: change }))
    expect(row()).toEqual(['return-home', at(2), at(-3), at(-2)])
    expect(await store.turn(siteId, plain.id)).toEqual(busy)
    const back = changes({ turns: [{ before: busy, after: { ...plain, plan: aPlan(dinner) } }] })
    await store.commit(aCommit({ planningVersionExpected: 3, changes: back }))
    expect(row()).toEqual(['prepare', null, null, null])
  })
})
