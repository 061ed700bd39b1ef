import { describe, expect, test } from 'vitest'
import { SiteId } from '../../src/domain/ids.ts'
import { type SetupKind, type SetupWrite, setupKinds } from '../../src/domain/setup.ts'
import type { SiteSetup } from '../../src/domain/snapshot.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import { type Commit, Conflict, ReferenceMissing, type Store } from '../../src/store/store.ts'
import { aStoreOnFile } from './a-database-file.ts'
import {
  aBooking,
  aCommit,
  addition,
  aPolicy,
  aStore,
  at,
  booked,
  change,
  changes,
  everything,
  hours,
  retirement,
  site,
  siteId,
  wrensDetails,
} from './a-world.ts'
import { anObservation, aRateSet, oneOfEach, otherwise } from './one-of-each.ts'

const firstPage = { limit: 100, after: null }

/** Set-up rows on top of whatever version there is. */
const write = (...setup: SetupWrite[]): Commit => aCommit({ planningVersionExpected: null, setup })

const listed = async (store: Store, kind: SetupKind, retired = false) =>
  (await store.setupRows(siteId, kind, { retired }, firstPage)).items

/** Where the rows of a kind stand in the set-up; closures and observations are looked up by the day. */
const inForce: { readonly [Kind in SetupKind]: ((setup: SiteSetup) => readonly unknown[]) | null } = {
  section: ({ sections }) => sections,
  exit: ({ exits }) => exits,
  passage: ({ passages }) => passages,
  room: ({ rooms }) => rooms,
  storagePlace: ({ storagePlaces }) => storagePlaces,
  furnishing: ({ furnishings }) => furnishings,
  tool: ({ tools }) => tools,
  equipment: ({ equipment }) => equipment,
  layout: ({ layouts }) => layouts,
  person: ({ people }) => people,
  shift: ({ shifts }) => shifts,
  closure: null,
  stockChange: ({ stockChanges }) => stockChanges,
  observation: null,
  rateSet: ({ rateSet }) => (rateSet ? [rateSet] : []),
  policy: ({ policy }) => [policy],
}
const outOfUse: { readonly [Kind in SetupKind]?: (setup: SiteSetup) => readonly unknown[] } = {
  section: ({ retired }) => retired.sections,
  room: ({ retired }) => retired.rooms,
  storagePlace: ({ retired }) => retired.storagePlaces,
  furnishing: ({ retired }) => retired.furnishings,
  equipment: ({ retired }) => retired.equipment,
  layout: ({ retired }) => retired.layouts,
  shift: ({ retired }) => retired.shifts,
}

describe('a row of the set-up is added, changed and retired, whatever it is:', () => {
  test.each(setupKinds)('%s', async (kind) => {
    const store = await aStore()
    const added = oneOfEach[kind]
    const { id } = added.after
    const rows = async () => {
      const setup = await store.setup(siteId)
      return setup ? inForce[kind]?.(setup) : null
    }

    await store.commit(write(added))
    expect(await store.setupRow(siteId, kind, id)).toEqual({ row: added.after, version: 1, retiredAt: null })
    expect(await listed(store, kind)).toContainEqual({ row: added.after, version: 1, retiredAt: null })
    if (inForce[kind]) expect(await rows()).toContainEqual(added.after)
    await expect(store.commit(write(added))).rejects.toThrow(Conflict)

    const changed = change(kind, added.after, otherwise[kind])
    expect(changed.after).not.toEqual(added.after)
    await store.commit(write(changed))
    expect(await store.setupRow(siteId, kind, id)).toEqual({
      row: changed.after,
      version: 2,
      retiredAt: null,
    })
    if (inForce[kind]) {
      expect(await rows()).toContainEqual(changed.after)
      expect(await rows()).not.toContainEqual(added.after)
    }

    const before = await store.recordedState(siteId)
    await expect(store.commit(write(changed))).rejects.toThrow('has been changed since it was read')
    await expect(store.commit(write(changed))).rejects.toThrow(Conflict)
    await expect(store.commit(write(retirement(kind, added.after)))).rejects.toThrow(Conflict)
    expect(await store.recordedState(siteId)).toEqual(before)

    await store.commit({ ...write(retirement(kind, changed.after)), at: at(7) })
    expect(await store.setupRow(siteId, kind, id)).toEqual({
      row: changed.after,
      version: 3,
      retiredAt: at(7),
    })
    expect((await listed(store, kind)).map(({ row }) => row.id)).not.toContain(id)
    expect((await listed(store, kind, true)).map(({ row }) => row.id)).toContain(id)
    if (inForce[kind]) expect((await rows()) ?? []).not.toContainEqual(changed.after)
    const setup = await store.setup(siteId)
    // Without a policy there is no set-up to decide on.
    expect(setup === null).toBe(kind === 'policy')
    if (setup && outOfUse[kind]) expect(outOfUse[kind](setup)).toEqual([changed.after])

    for (const late of [change(kind, changed.after, {}), retirement(kind, changed.after)])
      await expect(store.commit(write(late))).rejects.toThrow('is out of use already')
    store.close()
  })
})

describe('a change of the set-up', () => {
  test('is refused to the slower of two who read the same row, in whatever process they are', async () => {
    const { file, store } = await aStoreOnFile()
    const other = await openSqliteStore({ file })
    const { after } = oneOfEach.tool
    await store.commit(write(oneOfEach.tool))
    const results = await Promise.allSettled([
      store.commit(write(change('tool', after, { countOwned: 3 }))),
      other.commit(write(change('tool', after, { countOwned: 4 }))),
    ])
    expect(results.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    expect(results.find(({ status }) => status === 'rejected')).toMatchObject({
      reason: expect.any(Conflict),
    })
    expect(await store.setupRow(siteId, 'tool', after.id)).toMatchObject({ version: 2 })
    other.close()
  })

  test('is written as a whole or not at all', async () => {
    const store = await aStore()
    await store.commit(write(oneOfEach.tool))
    const { after } = oneOfEach.tool
    await store.commit(write(change('tool', after, { countOwned: 3 })))
    const before = await store.recordedState(siteId)
    const stale = change('tool', after, { countOwned: 4 })
    await expect(store.commit(write(oneOfEach.section, stale))).rejects.toThrow(Conflict)
    expect(await store.recordedState(siteId)).toEqual(before)
    expect(await store.setupRow(siteId, 'section', 'section_foyer')).toBeNull()
  })

  test('is told in the change log as added, changed and retired, a row that makes way too', async () => {
    const { store, raw } = await aStoreOnFile()
    const { after } = oneOfEach.tool
    await store.commit(write(oneOfEach.tool))
    await store.commit(write(change('tool', after, { countOwned: 3 }), aPolicy('policy_second')))
    const [, , last] = (await store.audit(siteId, firstPage)).items
    expect(last?.effects).toMatchObject([
      { table: 'tool', before: { countOwned: 2, version: 1 }, after: { countOwned: 3, version: 2 } },
      {
        id: 'policy_first',
        before: { version: 1, retiredAt: null },
        after: { version: 2, retiredAt: at(-48) },
      },
      { id: 'policy_second', before: null, after: { version: 1, retiredAt: null } },
    ])
    const lines = raw
      .prepare(`SELECT resource_id || ' ' || what FROM change_log WHERE audit_sequence > 1 ORDER BY sequence`)
      .pluck()
      .all()
    expect(lines).toEqual([
      'tool_mop added',
      'tool_mop changed',
      'policy_first retired',
      'policy_second added',
    ])
  })

  test('of a row that is not there names what is missing', async () => {
    const store = await aStore()
    const { after } = oneOfEach.exit
    await expect(store.commit(write(change('exit', after, otherwise.exit)))).rejects.toThrow(
      'There is no exit exit_street in this site',
    )
    await expect(store.commit(write(retirement('exit', after)))).rejects.toThrow(ReferenceMissing)
  })

  test('is a bug when it names a row twice, gives it another id, or changes what it retires', async () => {
    const store = await aStore()
    await store.commit(write(oneOfEach.tool))
    const { after } = oneOfEach.tool
    const more = change('tool', after, { countOwned: 3 })
    await expect(store.commit({ ...write(more), changes: changes({ setup: [more] }) })).rejects.toThrow(
      'tool tool_mop is written twice in one commit',
    )
    await expect(store.commit(write(change('tool', after, { id: 'tool_broom' })))).rejects.toThrow(
      'tool tool_mop cannot become tool_broom',
    )
    await expect(store.commit(write({ ...more, retire: true }))).rejects.toThrow(
      'tool tool_mop is changed while it is retired',
    )
    await expect(store.commit(write({ ...oneOfEach.passage, retire: true }))).rejects.toThrow(
      'passage passage_back is new and is retired at once',
    )
  })

  test('never moves a layout to another room', async () => {
    const store = await aStore()
    const stored = await store.setupRow(siteId, 'layout', 'layout_east-banquet')
    const move = change('layout', stored!.row, { roomId: 'room_west' })
    await expect(store.commit(write(move))).rejects.toThrow('cannot move to another room')
  })

  test('leaves the set-up that was parsed alone when it is about closures and what was seen', async () => {
    const { store, raw } = await aStoreOnFile()
    const setupVersion = () => raw.prepare('SELECT setup_version FROM site').pluck().get()
    const setup = await store.setup(siteId)
    await store.commit(write(oneOfEach.closure, oneOfEach.observation))
    expect(await store.planningVersion(siteId)).toBe(2)
    expect(setupVersion()).toBe(1)
    expect(await store.setup(siteId)).toBe(setup)
    await store.commit(write(oneOfEach.stockChange, anObservation('tuesday', 20)))
    expect(setupVersion()).toBe(2)
    expect((await store.setup(siteId))?.stockChanges).toEqual([oneOfEach.stockChange.after])
  })

  test('of a closure moves it to its new time', async () => {
    const store = await aStore()
    const { after } = oneOfEach.closure
    await store.commit(write(oneOfEach.closure))
    await store.commit(write(change('closure', after, { ...hours(20, 30) })))
    expect(await store.closures(siteId, hours(5, 9))).toEqual([])
    expect(await store.closures(siteId, hours(29, 40))).toHaveLength(1)
    const moved = await store.setupRow(siteId, 'closure', after.id)
    await store.commit(write(retirement('closure', moved!.row)))
    expect(await store.closures(siteId, everything)).toEqual([])
  })

  test('keeps the name and the number of a person who is retired, until they are erased', async () => {
    const store = await aStore()
    const stored = await store.setupRow(siteId, 'person', 'person_wren')
    await store.commit(write(retirement('person', stored!.row)))
    expect((await store.setup(siteId))?.people).toEqual([])
    expect(await store.personDetails(siteId)).toEqual([wrensDetails])
  })
})

describe('the policy and the rate set in force', () => {
  test('make way for a new one and stay readable', async () => {
    const store = await aStore()
    expect((await store.setup(siteId))?.rateSet).toBeNull()
    await store.commit(write(aRateSet('rateset_first', 1)))
    await store.commit({ ...write(aRateSet('rateset_second', 2), aPolicy('policy_second')), at: at(3) })
    const setup = await store.setup(siteId)
    expect(setup?.policy.id).toBe('policy_second')
    expect(setup?.rateSet?.id).toBe('rateset_second')
    for (const [kind, id] of [
      ['policy', 'policy_first'],
      ['rateSet', 'rateset_first'],
    ] as const) {
      expect(await listed(store, kind)).toHaveLength(1)
      expect(await listed(store, kind, true)).toHaveLength(2)
      expect(await store.setupRow(siteId, kind, id)).toMatchObject({ version: 2, retiredAt: at(3) })
    }
  })

  test('may be retired by name in the commit that brings the next one', async () => {
    const store = await aStore()
    const first = await store.setupRow(siteId, 'policy', 'policy_first')
    await store.commit(write(aPolicy('policy_second'), retirement('policy', first!.row)))
    expect((await store.setup(siteId))?.policy.id).toBe('policy_second')
  })

  test('are replaced by one of two who bring a new one at the same time', async () => {
    const { file, store } = await aStoreOnFile()
    const other = await openSqliteStore({ file })
    const results = await Promise.allSettled([
      store.commit(write(aPolicy('policy_mine'), aRateSet('rateset_mine', 1))),
      other.commit(write(aPolicy('policy_theirs'), aRateSet('rateset_theirs', 1))),
    ])
    expect(results.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    expect(await listed(store, 'policy', true)).toHaveLength(2)
    expect(await listed(store, 'rateSet', true)).toHaveLength(1)
    other.close()
  })
})

describe('a room that is made of other sections', () => {
  const west = async (store: Store, sectionIds: string[]) => {
    const stored = await store.setupRow(siteId, 'room', 'room_west')
    return change('room', stored!.row, { sectionIds })
  }

  test('holds them for the bookings that are still to come, and lets go of those it had', async () => {
    const { store, raw } = await aStoreOnFile()
    const past = aBooking('past', { room: 'west', doors: -100 })
    const coming = aBooking('coming', { room: 'west', doors: 10 })
    const gone = aBooking('gone', { room: 'west', doors: 10, status: 'CANCELLED' })
    await store.commit(booked([past, coming, gone]))
    await store.commit({ ...write(oneOfEach.section), at: at(0) })
    await store.commit({ ...write(await west(store, ['section_west', 'section_foyer'])), at: at(0) })
    const held = () =>
      raw
        .prepare(
          `SELECT booking_id || ' ' || section_id || ' ' || blocking FROM section_occupancy ORDER BY booking_id, section_id`,
        )
        .pluck()
        .all()
    expect(held()).toEqual([
      'booking_coming section_foyer 1',
      'booking_coming section_west 1',
      'booking_gone section_foyer 0',
      'booking_gone section_west 0',
      'booking_past section_west 1',
    ])
    await store.commit({ ...write(await west(store, ['section_foyer'])), at: at(0) })
    expect(held()).toContain('booking_coming section_foyer 1')
    expect(held()).not.toContain('booking_coming section_west 1')
    await store.commit(
      booked([aBooking('other', { room: 'whole', doors: 10 })], { planningVersionExpected: 5 }),
    )
  })

  test('is refused where two bookings would then be in one place', async () => {
    const store = await aStore()
    await store.commit(
      booked([aBooking('here', { room: 'west', doors: 10 }), aBooking('there', { room: 'east', doors: 10 })]),
    )
    const before = await store.recordedState(siteId)
    const both = await west(store, ['section_east', 'section_west'])
    await expect(store.commit(write(both))).rejects.toThrow('already taken')
    await expect(store.commit(write(both))).rejects.toThrow(Conflict)
    expect(await store.recordedState(siteId)).toEqual(before)
  })

  test('takes a booking along that is moved in the same commit', async () => {
    const { store, raw } = await aStoreOnFile()
    const here = aBooking('here', { room: 'west', doors: 10 })
    await store.commit(booked([here, aBooking('there', { room: 'east', doors: 10 })]))
    const later = { ...here, ...Object(aBooking('here', { room: 'west', doors: 20 })), version: 2 }
    const both = await west(store, ['section_east', 'section_west'])
    const move = changes({ bookings: [{ before: here, after: later }] })
    await store.commit({ ...write(both), changes: move })
    const held = raw
      .prepare(`SELECT section_id, from_at FROM section_occupancy WHERE booking_id = 'booking_here'`)
      .all()
    expect(held).toEqual([
      { section_id: 'section_east', from_at: at(20) },
      { section_id: 'section_west', from_at: at(20) },
    ])
  })
})

describe('nothing points across sites:', () => {
  const elsewhere = SiteId.parse('site_elm-court')
  const there = (kind: SetupKind, row: object) => addition(kind, { ...row, siteId: elsewhere })
  const pointing: readonly (readonly [string, SetupWrite])[] = [
    ['an exit to a section', there('exit', oneOfEach.exit.after)],
    ['a room to a section', there('room', oneOfEach.room.after)],
    ['a furnishing to a store', there('furnishing', oneOfEach.furnishing.after)],
    ['a layout to a room', there('layout', oneOfEach.layout.after)],
    ['a shift to a person', there('shift', oneOfEach.shift.after)],
    ['a change of stock to a furnishing', there('stockChange', oneOfEach.stockChange.after)],
    [
      'a change of stock to a device',
      there('stockChange', { ...oneOfEach.stockChange.after, ...otherwise.stockChange }),
    ],
    ['something seen to a room', there('observation', oneOfEach.observation.after)],
  ]

  test.each(pointing)('not %s', async (_, row) => {
    const store = await aStore()
    const found = (setup: readonly SetupWrite[]) =>
      aCommit({ siteId: elsewhere, planningVersionExpected: null, site: { ...site, id: elsewhere }, setup })
    await expect(store.commit(found([row]))).rejects.toThrow(ReferenceMissing)
    await expect(store.commit(found([]))).resolves.toBe(1)
    store.close()
  })

  test('and nobody changes a row of another site', async () => {
    const store = await aStore()
    await store.commit(
      aCommit({ siteId: elsewhere, planningVersionExpected: null, site: { ...site, id: elsewhere } }),
    )
    const row = { id: 'section_east', name: 'east', areaSquareMetres: 107, floorKind: 'sealed-wood' }
    const { after } = there('section', row)
    const taken = aCommit({
      siteId: elsewhere,
      planningVersionExpected: null,
      setup: [change('section', after, { name: 'Mine' })],
    })
    await expect(store.commit(taken)).rejects.toThrow(ReferenceMissing)
  })
})

describe('the bookings to come', () => {
  test('are those of a room or with a layout that are not over and not cancelled, by doors, so many at most', async () => {
    const store = await aStore()
    await store.commit(
      booked([
        aBooking('over', { doors: -3, clear: 0 }),
        aBooking('running', { doors: -26, clear: -20, room: 'west' }),
        aBooking('soon', { doors: 5 }),
        aBooking('dinner', { doors: 30, layoutId: 'layout_east-banquet' }),
        aBooking('gone', { doors: 8, status: 'CANCELLED' }),
        aBooking('long', { doors: -24 * 25, clear: -24 * 2, room: 'west' }),
        aBooking('whole', { doors: 60, room: 'whole' }),
      ]),
    )
    const coming = async (from: number, roomIds: string[], layoutIds: string[], most = 10) => {
      const setup = await store.setup(siteId)
      const use = {
        roomIds: setup!.rooms.map(({ id }) => id).filter((id) => roomIds.includes(id)),
        layoutIds: setup!.layouts.map(({ id }) => id).filter((id) => layoutIds.includes(id)),
      }
      return (await store.comingBookings(siteId, at(from), use, most)).map(({ id }) => id.slice(8))
    }
    expect(await coming(0, ['room_east'], [])).toEqual(['soon', 'dinner'])
    expect(await coming(-1, ['room_east'], [])).toEqual(['over', 'soon', 'dinner'])
    expect(await coming(-24 * 10, ['room_west'], [])).toEqual(['long', 'running'])
    expect(await coming(0, [], ['layout_east-banquet'])).toEqual(['dinner'])
    expect(await coming(0, ['room_whole'], ['layout_east-games'])).toEqual(['soon', 'whole'])
    expect(await coming(0, ['room_east', 'room_whole'], [], 2)).toEqual(['soon', 'dinner'])
    expect(await coming(0, [], [])).toEqual([])
    const none = await store.comingBookings(
      SiteId.parse('site_elm-court'),
      at(0),
      { roomIds: [], layoutIds: [] },
      9,
    )
    expect(none).toEqual([])
  })
})
