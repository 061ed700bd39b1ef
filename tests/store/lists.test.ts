import { describe, expect, test } from 'vitest'
import { RoomId, SiteId } from '../../src/domain/ids.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import { type Page, PageKeyUnknown, type PageRequest } from '../../src/store/store.ts'
import {
  aBooking,
  aCommit,
  added,
  aStore,
  aTurn,
  at,
  booked,
  changes,
  everything,
  hours,
  site,
  siteId,
} from './a-world.ts'

/** Reads a list to its end in small pages. */
async function allPages<Row>(limit: number, read: (page: PageRequest) => Promise<Page<Row>>): Promise<Row[]> {
  const rows: Row[] = []
  let after: string | null = null
  do {
    const page: Page<Row> = await read({ limit, after })
    expect(page.items.length).toBeLessThanOrEqual(limit)
    rows.push(...page.items)
    after = page.nextAfter
  } while (after !== null)
  return rows
}
const ids = (rows: readonly { id: string }[]) => rows.map(({ id }) => id)

/** Eight bookings, two at a time with the same doors, in the two halves. */
const week = ['a', 'b', 'c', 'd'].flatMap((word, day) => [
  aBooking(`${word}-west`, { room: 'west', doors: day * 24 }),
  aBooking(`${word}-east`, { room: 'east', doors: day * 24 }),
])

describe('a list', () => {
  test('of bookings is by doors, then id, and pages neither repeat nor leave out any', async () => {
    const store = await aStore()
    await store.commit(booked(week))
    const inOrder = ['a-east', 'a-west', 'b-east', 'b-west', 'c-east', 'c-west', 'd-east', 'd-west']
    for (const limit of [1, 3, 8, 50]) {
      const rows = await allPages(limit, (page) => store.bookings(siteId, everything, { roomId: null }, page))
      expect(ids(rows)).toEqual(inOrder.map((word) => `booking_${word}`))
    }
  })

  test('of bookings holds those that touch the window, cancelled ones too, of one room if asked', async () => {
    const store = await aStore()
    const gone = aBooking('gone', { doors: 1, status: 'CANCELLED' })
    const longAgo = aBooking('long', { room: 'west', doors: -24 * 29, clear: 2 })
    await store.commit(
      booked([longAgo, aBooking('dinner', { doors: 0, clear: 3 }), gone, aBooking('next', { doors: 3 })]),
    )
    const list = async (from: number, to: number, room: string | null = null) => {
      const filter = { roomId: room === null ? null : RoomId.parse(room) }
      return ids((await store.bookings(siteId, hours(from, to), filter, { limit: 10, after: null })).items)
    }
    expect(await list(1, 3)).toEqual(['booking_long', 'booking_dinner', 'booking_gone'])
    expect(await list(2, 3)).toEqual(['booking_dinner', 'booking_gone'])
    expect(await list(1, 3, 'room_west')).toEqual(['booking_long'])
    expect(await list(6, 9)).toEqual([])
  })

  test('of turns holds those whose span touches the window and that are not dropped', async () => {
    const store = await aStore()
    await store.commit(booked(week))
    const turns = await allPages(3, (page) => store.turns(siteId, hours(24, 48), page))
    expect(ids(turns)).toEqual(
      ['b-east', 'b-west', 'c-east', 'c-west'].slice(2).map((word) => `turn_${word}`),
    )
    expect(ids(await allPages(3, (page) => store.turns(siteId, everything, page)))).toHaveLength(8)
    expect(turns[0]?.plan).toEqual(aTurn(week[5]!).plan)
  })

  test('of failing turns holds those with doors to come, nearest first', async () => {
    const store = await aStore()
    const bookings = [
      aBooking('past', { doors: -5 }),
      aBooking('near', { doors: 5 }),
      aBooking('far', { doors: 50 }),
    ]
    const turns = bookings.map((booking) => added(aTurn(booking, { status: 'failing', plan: null })))
    const fine = aBooking('fine', { doors: 20 })
    const all = changes({ bookings: [...bookings, fine].map(added), turns: [...turns, added(aTurn(fine))] })
    await store.commit(aCommit({ changes: all }))
    const failing = await allPages(1, (page) => store.failingTurns(siteId, at(0), page))
    expect(ids(failing)).toEqual(['turn_near', 'turn_far'])
  })

  test('of set-up rows is by id', async () => {
    const store = await aStore()
    const inForce = { retired: false }
    const rows = await allPages(4, (page) => store.setupRows(siteId, 'layout', inForce, page))
    const layouts = ids(rows.map(({ row }) => row))
    expect(layouts).toEqual([...layouts].sort())
    expect(layouts).toHaveLength(6)
    expect(await store.setupRow(siteId, 'layout', 'layout_east-games')).toMatchObject({
      row: { name: 'games', seats: 120 },
      version: 1,
      retiredAt: null,
    })
    expect(await store.setupRow(siteId, 'layout', 'layout_none')).toBeNull()
  })

  test('of sites is by name', async () => {
    const store = await openSqliteStore({ file: ':memory:' })
    for (const [id, name] of [
      ['site_b', 'Beech'],
      ['site_a', 'Yew'],
      ['site_c', 'Beech'],
    ]) {
      const founded = { ...site, id: SiteId.parse(id), name: String(name) }
      await store.commit(aCommit({ siteId: founded.id, planningVersionExpected: null, site: founded }))
    }
    expect(ids(await allPages(1, (page) => store.sites(page)))).toEqual(['site_b', 'site_c', 'site_a'])
  })

  test('of the audit is oldest first', async () => {
    const store = await aStore()
    for (const [index, booking] of week.entries()) {
      await store.commit(booked([booking], { planningVersionExpected: index + 1 }))
    }
    const entries = await allPages(2, (page) => store.audit(siteId, page))
    expect(entries.map(({ planningVersion }) => planningVersion)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9])
  })

  test('refuses to go on from a place it never gave', async () => {
    const store = await aStore()
    for (const after of ['', 'nonsense', '{}', '["x"]', '[1.5,"id"]']) {
      const page = store.bookings(siteId, everything, { roomId: null }, { limit: 5, after })
      await expect(page).rejects.toThrow(PageKeyUnknown)
    }
  })
})

describe('another site', () => {
  const elsewhere = SiteId.parse('site_elm-court')

  test('sees nothing of this one', async () => {
    const store = await aStore()
    const dinner = aBooking('dinner')
    await store.commit(booked([dinner]))
    await store.commit(
      aCommit({ siteId: elsewhere, planningVersionExpected: null, site: { ...site, id: elsewhere } }),
    )
    const page = { limit: 10, after: null }
    expect(await store.booking(elsewhere, dinner.id)).toBeNull()
    expect(await store.turn(elsewhere, dinner.turnId)).toBeNull()
    expect((await store.bookings(elsewhere, everything, { roomId: null }, page)).items).toEqual([])
    expect((await store.turns(elsewhere, everything, page)).items).toEqual([])
    expect((await store.setupRows(elsewhere, 'room', { retired: true }, page)).items).toEqual([])
    expect(await store.setupRow(elsewhere, 'room', 'room_east')).toBeNull()
    expect(await store.personDetails(elsewhere)).toEqual([])
    expect(await store.setup(elsewhere)).toBeNull()
    expect(await store.load(elsewhere, everything, at(0))).toBeNull()
  })

  test('that does not exist has no version, no set-up and no snapshot', async () => {
    const store = await aStore()
    expect(await store.site(elsewhere)).toBeNull()
    expect(await store.planningVersion(elsewhere)).toBeNull()
    expect(await store.setup(elsewhere)).toBeNull()
    expect(await store.load(elsewhere, everything, at(0))).toBeNull()
    expect((await store.recordedState(elsewhere)).size).toBe(0)
  })
})
