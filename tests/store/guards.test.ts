import { describe, expect, test } from 'vitest'
import { Conflict } from '../../src/store/store.ts'
import { aStoreOnFile } from './a-database-file.ts'
import { aBooking, aCommit, aStore, at, booked, changes, everything, siteId } from './a-world.ts'

const firstPage = { limit: 100, after: null }
const titles = async (store: Awaited<ReturnType<typeof aStore>>) =>
  (await store.bookings(siteId, everything, { roomId: null }, firstPage)).items.map(({ title }) => title)

describe('two bookings in one place', () => {
  test('are refused by the database, although nobody looked before', async () => {
    const store = await aStore()
    await store.commit(booked([aBooking('first', { doors: 0, clear: 3 })]))
    const second = booked([aBooking('second', { doors: 2, clear: 5 })], { planningVersionExpected: 2 })
    await expect(store.commit(second)).rejects.toThrow(Conflict)
    expect(await titles(store)).toEqual(['The first'])
    expect(await store.planningVersion(siteId)).toBe(2)
    expect((await store.audit(siteId, firstPage)).items).toHaveLength(2)
  })

  test('are refused when they come in one commit', async () => {
    const store = await aStore()
    const both = [aBooking('first'), aBooking('second', { doors: 2 })]
    await expect(store.commit(booked(both))).rejects.toThrow(Conflict)
    expect(await titles(store)).toEqual([])
  })

  test('are refused when a room holds the section of another', async () => {
    const store = await aStore()
    const both = [aBooking('half', { room: 'east' }), aBooking('whole', { room: 'whole', doors: 2 })]
    await expect(store.commit(booked(both))).rejects.toThrow(Conflict)
  })

  test('are refused when the longer one began weeks before', async () => {
    const store = await aStore()
    const both = [aBooking('long', { doors: -24 * 30, clear: 23 }), aBooking('short', { doors: 22 })]
    await expect(store.commit(booked(both))).rejects.toThrow(Conflict)
  })

  test('may follow each other at the same minute, and stand side by side in two halves', async () => {
    const store = await aStore()
    const all = [
      aBooking('first', { doors: 0, clear: 3 }),
      aBooking('second', { doors: 3, clear: 6 }),
      aBooking('beside', { room: 'west', doors: 1, clear: 5 }),
    ]
    await store.commit(booked(all))
    expect(await titles(store)).toHaveLength(3)
  })

  test('may swap their rooms in one commit', async () => {
    const store = await aStore()
    const east = aBooking('one', { room: 'east' })
    const west = aBooking('two', { room: 'west' })
    await store.commit(booked([east, west]))
    const swap = changes({
      bookings: [
        { before: east, after: { ...east, roomId: west.roomId, layoutId: west.layoutId, version: 2 } },
        { before: west, after: { ...west, roomId: east.roomId, layoutId: east.layoutId, version: 2 } },
      ],
    })
    await store.commit(aCommit({ planningVersionExpected: 2, action: 'change', changes: swap }))
    expect((await store.booking(siteId, east.id))?.roomId).toBe('room_west')
    expect((await store.booking(siteId, west.id))?.roomId).toBe('room_east')
  })

  test('do not meet when one is cancelled, whose place is then free', async () => {
    const store = await aStore()
    const first = aBooking('first')
    await store.commit(booked([first]))
    const cancel = changes({
      bookings: [{ before: first, after: { ...first, status: 'CANCELLED', version: 2 } }],
    })
    await store.commit(aCommit({ planningVersionExpected: 2, action: 'cancel', changes: cancel }))
    await store.commit(booked([aBooking('second', { doors: 1 })], { planningVersionExpected: 3 }))
    const again = changes({
      bookings: [{ before: { ...first, version: 2 }, after: { ...first, version: 3 } }],
    })
    await expect(
      store.commit(aCommit({ planningVersionExpected: 4, action: 'change', changes: again })),
    ).rejects.toThrow(Conflict)
  })

  test('are refused to any other program that writes to the file', async () => {
    const { store, raw } = await aStoreOnFile()
    const later = aBooking('later', { doors: 10 })
    await store.commit(booked([aBooking('first'), later]))
    const insert = raw.prepare('INSERT INTO section_occupancy VALUES (?, ?, ?, ?, ?)')
    expect(() => insert.run(later.id, 'section_west', at(0), at(3), 1)).not.toThrow()
    const move = raw.prepare(
      'UPDATE section_occupancy SET from_at = ?, to_at = ? WHERE booking_id = ? AND section_id = ?',
    )
    expect(() => move.run(at(2), at(5), later.id, 'section_east')).toThrow('section_overlap')
    expect(() => move.run(at(3), at(5), later.id, 'section_east')).not.toThrow()
  })
})

describe('the database itself refuses', () => {
  const world = async () => {
    const { store, raw } = await aStoreOnFile()
    await store.commit(booked([aBooking('dinner')]))
    return raw
  }

  test('to change or lose a line of the audit or of the change log', async () => {
    const raw = await world()
    for (const table of ['audit', 'change_log']) {
      expect(() => raw.prepare(`UPDATE ${table} SET at = 0`).run()).toThrow(`${table}_is_append_only`)
      expect(() => raw.prepare(`DELETE FROM ${table}`).run()).toThrow(`${table}_is_append_only`)
    }
  })

  test('a booking that ends before it starts, is longer than 31 days, is for nobody, or has no such status', async () => {
    const raw = await world()
    const set = (what: string) => () => raw.prepare(`UPDATE booking SET ${what}`).run()
    expect(set('ends_at = starts_at')).toThrow('booking_in_order')
    expect(set('doors_at = starts_at + 1')).toThrow('booking_in_order')
    expect(set('clear_at = ends_at - 1')).toThrow('booking_in_order')
    expect(set('clear_at = doors_at + 31 * 86400000 + 1')).toThrow('booking_length')
    expect(set('headcount = 0')).toThrow('booking_headcount')
    expect(set(`status = 'PERHAPS'`)).toThrow('booking_status')
    expect(set(`headcount = 'many'`)).toThrow('cannot store TEXT value in INTEGER column')
  })

  test('a turn longer than 48 hours, or one that is ready without a plan', async () => {
    const raw = await world()
    const set = (what: string) => () => raw.prepare(`UPDATE turn SET ${what}`).run()
    expect(set('release_at = due_at + 1')).toThrow('turn_in_order')
    expect(set('release_at = due_at - 48 * 3600000 - 1')).toThrow('turn_in_order')
    expect(set('plan_ready_at = null')).toThrow('turn_ready_has_plan')
  })

  test('to lose what others refer to, and to refer across sites', async () => {
    const raw = await world()
    expect(() => raw.prepare(`DELETE FROM layout`).run()).toThrow('FOREIGN KEY')
    raw
      .prepare(
        `INSERT INTO site (id, name, zone, planning_version, setup_version) VALUES ('site_elm', 'Elm', 'Europe/London', 1, 1)`,
      )
      .run()
    const across = `INSERT INTO layout (id, site_id, document, room_id) VALUES ('layout_x', 'site_elm', '{}', 'room_east')`
    expect(() => raw.prepare(across).run()).toThrow('FOREIGN KEY')
  })

  test('two policies or two rate sets in force at one site', async () => {
    const raw = await world()
    const add = (table: string, id: string) => () =>
      raw.prepare(`INSERT INTO ${table} (id, site_id, document) VALUES ('${id}', '${siteId}', '{}')`).run()
    expect(add('policy', 'policy_x')).toThrow('UNIQUE')
    expect(add('rate_set', 'rateset_x')).not.toThrow()
    expect(add('rate_set', 'rateset_y')).toThrow('UNIQUE')
  })

  test('a layout that moves to another room', async () => {
    const raw = await world()
    const move = `UPDATE layout SET room_id = 'room_west' WHERE id = 'layout_east-banquet'`
    expect(() => raw.prepare(move).run()).toThrow('layout_keeps_room')
  })

  test('more or less of nothing, of two things at once, or from a moment until the same moment', async () => {
    const raw = await world()
    const add = (columns: string, values: string) => () =>
      raw
        .prepare(
          `INSERT INTO stock_change (id, site_id, document, ${columns}) VALUES ('stockchange_x', '${siteId}', '{}', ${values})`,
        )
        .run()
    expect(add('from_at', '5')).toThrow('stock_change_of_one')
    expect(add('from_at, furnishing_id, tool_id', `5, 'furnishing_chair', 'tool_x'`)).toThrow(
      'stock_change_of_one',
    )
    expect(add('from_at, to_at, furnishing_id', `5, 5, 'furnishing_chair'`)).toThrow('stock_change_in_order')
    expect(add('from_at, furnishing_id', `5, 'furnishing_chair'`)).not.toThrow()
  })

  test('a row of the set-up before its first version, and units and code tables that nobody knows', async () => {
    const raw = await world()
    const set = (table: string, what: string) => () => raw.prepare(`UPDATE ${table} SET ${what}`).run()
    for (const table of ['section', 'room', 'layout', 'policy'])
      expect(set(table, 'version = 0')).toThrow(`${table}_version`)
    expect(set('site', `units = 'ells'`)).toThrow('site_units')
    expect(set('site', `code_tables = 'none'`)).toThrow('site_code_tables')
  })
})
