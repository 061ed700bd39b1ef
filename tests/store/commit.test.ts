import { describe, expect, test } from 'vitest'
import { SiteId } from '../../src/domain/ids.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import { stateFromAudit } from '../../src/store/replay.ts'
import { type Commit, Conflict, type IdempotentAnswer, ReferenceMissing } from '../../src/store/store.ts'
import { aStoreOnFile } from './a-database-file.ts'
import {
  aBooking,
  aCommit,
  actorId,
  added,
  addition,
  anAnswer,
  aPlan,
  aStore,
  aTurn,
  at,
  booked,
  changes,
  everything,
  founding,
  hours,
  retirement,
  site,
  siteId,
  wrensDetails,
} from './a-world.ts'

const firstPage = { limit: 100, after: null }
const everyBooking = { roomId: null }

describe('what is committed', () => {
  test('is read again as it was written: booking, turn and plan', async () => {
    const store = await aStore()
    const dinner = aBooking('dinner', { foodServed: true, title: 'Dinner of the Bell Ringers' })
    expect(await store.commit(booked([dinner]))).toBe(2)
    expect(await store.booking(siteId, dinner.id)).toEqual(dinner)
    expect(await store.turn(siteId, dinner.turnId)).toEqual(aTurn(dinner))
    expect(await store.planningVersion(siteId)).toBe(2)
  })

  test('founds a site with its whole set-up', async () => {
    const store = await aStore()
    expect(await store.site(siteId)).toEqual(site)
    const setup = await store.setup(siteId)
    expect(setup?.rooms.map((room) => room.id)).toEqual(['room_east', 'room_west', 'room_whole'])
    expect(setup?.layouts).toHaveLength(6)
    expect(setup?.policy.id).toBe('policy_first')
    expect(setup?.people).toEqual([
      { id: 'person_wren', siteId, adult: true, skills: ['sound'], skillDates: [] },
    ])
    expect(setup?.rateSet).toBeNull()
    expect(await store.personDetails(siteId)).toEqual([wrensDetails])
  })

  test('comes from one person only when two decided on the same version: the second writes nothing', async () => {
    const store = await aStore()
    await store.commit(booked([aBooking('first')]))
    const before = await store.recordedState(siteId)
    await expect(store.commit(booked([aBooking('second', { doors: 10 })]))).rejects.toThrow(Conflict)
    expect(await store.recordedState(siteId)).toEqual(before)
    expect((await store.audit(siteId, firstPage)).items).toHaveLength(2)
  })

  test('comes from one process only, even when both looked at the version before either wrote', async () => {
    const { file, store } = await aStoreOnFile()
    const other = await openSqliteStore({ file })
    const results = await Promise.allSettled([
      store.commit(booked([aBooking('first')])),
      other.commit(booked([aBooking('second', { doors: 10 })])),
    ])
    expect(results.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    expect((await store.bookings(siteId, everything, everyBooking, firstPage)).items).toHaveLength(1)
    other.close()
  })

  test('changes a turn as it was read, or not at all, whatever version was asked for', async () => {
    const { file, store } = await aStoreOnFile()
    const dinner = aBooking('dinner')
    const turn = aTurn(dinner)
    await store.commit(booked([dinner]))
    const other = await openSqliteStore({ file })
    const replan = (tasks: number) => {
      const after = { ...turn, plan: aPlan(dinner, tasks) }
      return aCommit({
        planningVersionExpected: null,
        changes: changes({ turns: [{ before: turn, after }] }),
      })
    }
    const results = await Promise.allSettled([store.commit(replan(3)), other.commit(replan(4))])
    expect(results.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    expect(stateFromAudit((await store.audit(siteId, firstPage)).items)).toEqual(
      await store.recordedState(siteId),
    )
    other.close()
  })

  test('may be added on top of whatever version there is', async () => {
    const store = await aStore()
    await store.commit(booked([aBooking('dinner')]))
    const section = addition('section', {
      id: 'section_foyer',
      name: 'Foyer',
      areaSquareMetres: 40,
      floorKind: 'tile',
    })
    expect(
      await store.commit(aCommit({ planningVersionExpected: null, action: 'add-section', setup: [section] })),
    ).toBe(3)
  })

  test('moves the set-up that is loaded next', async () => {
    const store = await aStore()
    expect((await store.setup(siteId))?.sections).toHaveLength(2)
    const section = addition('section', {
      id: 'section_foyer',
      name: 'Foyer',
      areaSquareMetres: 40,
      floorKind: 'tile',
    })
    await store.commit(aCommit({ action: 'add-section', setup: [section] }))
    expect((await store.setup(siteId))?.sections.map(({ name }) => name)).toContain('Foyer')
    expect((await store.load(siteId, hours(0, 1), at(0)))?.sections).toHaveLength(3)
  })

  test('changes the name of a site, the units it is shown in and the tables it is advised by', async () => {
    const store = await aStore()
    const renamed = { ...site, name: 'Larch Court Hall', units: 'us' as const, codeTables: 'uk' as const }
    await store.commit(aCommit({ action: 'change-site', site: renamed }))
    expect(await store.site(siteId)).toEqual(renamed)
    expect((await store.setup(siteId))?.site).toEqual(renamed)
  })

  test('takes set-up rows that were decided on together with those that were not', async () => {
    const store = await aStore()
    const closure = addition('closure', {
      id: 'closure_floor',
      sectionIds: ['section_east'],
      ...hours(5, 9),
      reason: 'Floor is sealed',
    })
    const tool = addition('tool', { id: 'tool_mop', name: 'mop', namePlural: 'mops', countOwned: 2 })
    await store.commit(aCommit({ action: 'close', setup: [tool], changes: changes({ setup: [closure] }) }))
    expect(await store.closures(siteId, hours(8, 20))).toEqual([closure.after])
    expect(await store.closures(siteId, hours(9, 20))).toEqual([])
    expect((await store.setup(siteId))?.tools).toEqual([tool.after])
  })

  test('replaces the plan of a turn, or takes it away', async () => {
    const store = await aStore()
    const dinner = aBooking('dinner')
    const turn = aTurn(dinner)
    await store.commit(booked([dinner]))
    const better = { ...turn, plan: aPlan(dinner, 5) }
    const replan = changes({ turns: [{ before: turn, after: better }] })
    await store.commit(aCommit({ planningVersionExpected: 2, action: 'change', changes: replan }))
    expect((await store.turn(siteId, turn.id))?.plan?.tasks).toHaveLength(5)
    const dropped = { ...turn, status: 'dropped' as const, plan: null }
    const drop = changes({ turns: [{ before: better, after: dropped }] })
    await store.commit(aCommit({ planningVersionExpected: 3, action: 'cancel', changes: drop }))
    expect(await store.turn(siteId, turn.id)).toEqual(dropped)
    expect((await store.turns(siteId, everything, firstPage)).items).toEqual([])
  })

  test('leaves the version alone when it is about phone numbers only', async () => {
    const store = await aStore()
    const moved = { ...wrensDetails, phone: '0100 555 0199' }
    expect(await store.commit(aCommit({ action: 'change-person', personDetails: [moved] }))).toBe(1)
    expect(await store.personDetails(siteId)).toEqual([moved])
  })
})

describe('the details of a person', () => {
  const wren = wrensDetails.personId
  const erasing = (rest: Partial<Commit> = {}) =>
    aCommit({
      action: 'erase-person-details',
      planningVersionExpected: null,
      personDetailsErased: [wren],
      ...rest,
    })

  test('are erased, in force or retired, and the person and the version stay', async () => {
    const store = await aStore()
    const before = await store.recordedState(siteId)
    expect(await store.commit(erasing())).toBe(1)
    expect(await store.personDetails(siteId)).toEqual([])
    expect(await store.recordedState(siteId)).toEqual(before)
    const person = await store.setupRow(siteId, 'person', wren)
    await store.commit(aCommit({ action: 'x', planningVersionExpected: null, personDetails: [wrensDetails] }))
    await store.commit(aCommit({ setup: [retirement('person', person!.row)] }))
    await store.commit(erasing())
    expect(await store.personDetails(siteId)).toEqual([])
  })

  test('are erased from answers that are kept, and from nothing else', async () => {
    const store = await aStore()
    const told = { id: wren, name: 'Wren', email: null, phone: '1', adult: true, version: 1 }
    const about = anAnswer({ key: 'about', body: JSON.stringify(told) })
    const listed = anAnswer({
      key: 'listed',
      body: JSON.stringify({ items: [told, { ...told, id: 'person_wrenn' }] }),
    })
    const other = anAnswer({ key: 'other', body: JSON.stringify({ name: 'Wren, Sundays', personId: wren }) })
    for (const answer of [about, listed, other]) await store.keepAnswer(answer, at(0))
    await store.commit(erasing())
    const body = async ({ route, key }: IdempotentAnswer) =>
      JSON.parse((await store.answerFor(actorId, route, key))?.body ?? '')
    const without = { ...told, name: null, phone: null }
    expect(await body(about)).toEqual(without)
    expect(await body(listed)).toEqual({ items: [without, { ...told, id: 'person_wrenn' }] })
    expect(await store.answerFor(actorId, other.route, other.key)).toEqual(other)
  })

  test('are erased once: where there are none any more, that is no fault; and the audit names nobody', async () => {
    const store = await aStore()
    for (let count = 1; count <= 2; count++) await store.commit(erasing({ reason: `details of ${wren}` }))
    const entries = (await store.audit(siteId, firstPage)).items.slice(-2)
    for (const entry of entries)
      expect(entry).toMatchObject({
        action: 'erase-person-details',
        reason: 'details of person_wren',
        effects: [],
      })
    const text = JSON.stringify((await store.audit(siteId, firstPage)).items)
    expect(text).not.toContain(wrensDetails.name)
  })

  test('are not erased through another site, nor written and erased by the same commit', async () => {
    const store = await aStore()
    const elsewhere = { ...site, id: SiteId.parse('site_elsewhere') }
    const place = { siteId: elsewhere.id, setup: [] }
    await store.commit(aCommit({ ...place, planningVersionExpected: 0, site: elsewhere }))
    const answer = anAnswer({ body: JSON.stringify({ id: wren, name: 'Wren' }) })
    await store.keepAnswer(answer, at(0))
    await store.commit(erasing(place))
    expect(await store.personDetails(siteId)).toEqual([wrensDetails])
    expect(await store.answerFor(actorId, answer.route, answer.key)).toEqual(answer)
    await expect(store.commit(erasing({ personDetails: [wrensDetails] }))).rejects.toThrow(
      'The details of person_wren are written and erased by one commit',
    )
    expect(await store.personDetails(siteId)).toEqual([wrensDetails])
  })
})

describe('a commit is refused', () => {
  test('when it names a room, a layout or a site that is not there', async () => {
    const store = await aStore()
    await expect(store.commit(booked([aBooking('dinner', { room: 'north' })]))).rejects.toThrow(
      ReferenceMissing,
    )
    const ofAnotherRoom = aBooking('dinner', { layoutId: 'layout_west-games' })
    await expect(store.commit(booked([ofAnotherRoom]))).rejects.toThrow(ReferenceMissing)
    const elsewhere = await openSqliteStore({ file: ':memory:' })
    await expect(elsewhere.commit(booked([aBooking('dinner')]))).rejects.toThrow(ReferenceMissing)
    expect(await store.planningVersion(siteId)).toBe(1)
  })

  test('when a room comes home to a layout that never comes', async () => {
    const store = await aStore()
    const room = (homeLayoutId: string) =>
      addition('room', {
        id: 'room_attic',
        name: 'Attic',
        sectionIds: ['section_west'],
        occupantLimitPosted: null,
        homeLayoutId,
        openingHours: null,
      })
    const layout = addition('layout', {
      id: 'layout_attic',
      roomId: 'room_attic',
      name: 'Attic',
      kind: 'meeting',
      seats: null,
      furnishings: [],
      equipment: [],
    })
    await expect(store.commit(aCommit({ setup: [room('layout_attic')] }))).rejects.toThrow(ReferenceMissing)
    await expect(store.commit(aCommit({ setup: [room('layout_east-games'), layout] }))).rejects.toThrow(
      ReferenceMissing,
    )
    await expect(store.commit(aCommit({ setup: [layout, room('layout_attic')] }))).resolves.toBe(2)
  })

  test('when an id is taken', async () => {
    const store = await aStore()
    await store.commit(booked([aBooking('dinner')]))
    const again = booked([aBooking('dinner', { doors: 30 })], { planningVersionExpected: 2 })
    await expect(store.commit(again)).rejects.toThrow(Conflict)
    await expect(store.commit({ ...founding, planningVersionExpected: 0 })).rejects.toThrow(Conflict)
  })

  test('when the booking has moved on from the version it was read at', async () => {
    const store = await aStore()
    const dinner = aBooking('dinner')
    await store.commit(booked([dinner]))
    const stale = { before: { ...dinner, version: 7 }, after: { ...dinner, version: 8 } }
    const commit = aCommit({ planningVersionExpected: 2, changes: changes({ bookings: [stale] }) })
    await expect(store.commit(commit)).rejects.toThrow(Conflict)
  })

  test('as a bug, when a turn is called ready without a plan', async () => {
    const store = await aStore()
    const dinner = aBooking('dinner')
    const turn = added(aTurn(dinner, { plan: null }))
    const commit = aCommit({ changes: changes({ bookings: [added(dinner)], turns: [turn] }) })
    await expect(store.commit(commit)).rejects.toThrow('turn_dinner is called ready and has no plan')
    expect(await store.booking(siteId, dinner.id)).toBeNull()
  })

  test('as a bug, when the check that was given finds a fault', async () => {
    const store = await openSqliteStore({
      file: ':memory:',
      validateBeforeCommit: (commit) => (commit.action === 'book' ? ['one hand is in two places'] : []),
    })
    await store.commit(founding)
    await expect(store.commit(booked([aBooking('dinner')]))).rejects.toThrow('one hand is in two places')
    expect(await store.planningVersion(siteId)).toBe(1)
  })

  test('as a bug, when it has rows of another site or rows no schema would take', async () => {
    const store = await aStore()
    const elsewhere = aBooking('dinner', { siteId: 'site_elm-court' })
    await expect(
      store.commit(aCommit({ changes: changes({ bookings: [added(elsewhere)] }) })),
    ).rejects.toThrow('rows of another site')
    const nobody = { ...aBooking('dinner'), headcount: 0 }
    await expect(store.commit(aCommit({ changes: changes({ bookings: [added(nobody)] }) }))).rejects.toThrow(
      'not valid',
    )
  })

  test('when the store was opened to read only', async () => {
    const { file } = await aStoreOnFile()
    const reader = await openSqliteStore({ file, readOnly: true })
    await expect(reader.commit(booked([aBooking('dinner')]))).rejects.toThrow(/readonly/)
    reader.close()
  })
})

describe('the audit', () => {
  test('tells who did what to which rows, before and after, with the hash of a plan in its place', async () => {
    const store = await aStore()
    const dinner = aBooking('dinner')
    await store.commit(booked([dinner], { reason: 'asked by telephone' }))
    const [, entry] = (await store.audit(siteId, firstPage)).items
    expect(entry).toMatchObject({
      siteId,
      actorId,
      action: 'book',
      reason: 'asked by telephone',
      planningVersion: 2,
      effects: [
        { table: 'booking', id: dinner.id, before: null, after: dinner },
        {
          table: 'turn',
          id: dinner.turnId,
          before: null,
          after: { planHash: expect.stringMatching(/^[0-9a-f]{64}$/) },
        },
      ],
    })
    expect(entry?.effects[1]?.after).not.toHaveProperty('plan')
  })

  test('never holds a name, an address or a number of a person', async () => {
    const { raw } = await aStoreOnFile()
    const texts = raw
      .prepare('SELECT effects FROM audit UNION ALL SELECT resource_id FROM change_log')
      .pluck()
      .all()
    expect(texts.join()).toContain('person_wren')
    expect(texts.join()).not.toMatch(/Alderbeck|0100 555/)
  })

  test('is followed by a change log in order, one line for each row that changed', async () => {
    const { store, raw } = await aStoreOnFile()
    const dinner = aBooking('dinner')
    await store.commit(booked([dinner]))
    const cancelled = { ...dinner, status: 'CANCELLED' as const, version: 2 }
    const turn = aTurn(dinner)
    const cancel = changes({
      bookings: [{ before: dinner, after: cancelled }],
      turns: [{ before: turn, after: { ...turn, status: 'dropped', plan: null } }],
    })
    await store.commit(aCommit({ planningVersionExpected: 2, action: 'cancel', changes: cancel }))
    const lines = raw
      .prepare(
        `SELECT resource_kind || ' ' || what FROM change_log WHERE audit_sequence > 1 ORDER BY sequence`,
      )
      .pluck()
      .all()
    expect(lines).toEqual(['booking added', 'turn added', 'booking cancelled', 'turn dropped'])
  })
})
