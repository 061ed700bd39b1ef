import { readFileSync } from 'node:fs'
import { describe, expect, onTestFinished, test } from 'vitest'
import { setupKinds } from '../../src/domain/setup.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import { stateFromAudit } from '../../src/store/replay.ts'
import type { Store } from '../../src/store/store.ts'
import { aFileOfBefore } from './a-file-of-before.ts'
import { aBooking, aCommit, at, booked, change, everything, hours, retirement, siteId } from './a-world.ts'
import { oneOfEach } from './one-of-each.ts'

const firstPage = { limit: 100, after: null }

/** A file as the version before migration 0001 left it, opened by this one. */
async function aStoreOfBefore(): Promise<Store> {
  const { file, raw } = aFileOfBefore('0000_first')
  expect(raw.pragma(`table_info('section')`)).toHaveLength(4)
  const rows = readFileSync(new URL('rows-of-before-0001.sql', import.meta.url), 'utf8')
  raw.transaction(() => raw.exec(rows)).immediate()
  raw.close()
  const store = await openSqliteStore({ file })
  onTestFinished(() => store.close())
  return store
}

describe('a database of the version before', () => {
  test('is brought up to date and reads as before, with what is new filled in', async () => {
    const store = await aStoreOfBefore()
    expect(await store.isReady()).toBe(true)
    expect(await store.site(siteId)).toEqual({
      id: siteId,
      name: 'Larch Court Hall',
      zone: 'Europe/London',
      units: 'metric',
      codeTables: 'us',
    })
    const setup = await store.setup(siteId)
    expect(setup?.rooms).toHaveLength(3)
    expect(setup?.rooms[0]).toMatchObject({ sectionIds: ['section_east'], floor: null, zones: [] })
    expect(setup?.layouts).toHaveLength(6)
    expect(setup?.layouts[0]).toMatchObject({ seats: 120, placements: [], amplified: false })
    expect(setup?.policy).toMatchObject({ id: 'policy_second', minorMassLimitKilograms: 10 })
    expect(setup).toMatchObject({ exits: [], passages: [], tools: [], stockChanges: [], rateSet: null })
    expect(setup?.retired).toMatchObject({ rooms: [], layouts: [], shifts: [] })
  })

  test('has every row of its set-up at its first version, and knows what was out of use', async () => {
    const store = await aStoreOfBefore()
    for (const kind of setupKinds) {
      const { items } = await store.setupRows(siteId, kind, { retired: true }, firstPage)
      for (const { version } of items) expect(version).toBe(1)
    }
    expect(await store.setupRow(siteId, 'policy', 'policy_first')).toMatchObject({ retiredAt: at(-48) })
    expect(await store.setupRow(siteId, 'closure', 'closure_floor')).toMatchObject({
      row: { passageIds: [], exitIds: [] },
      retiredAt: null,
    })
  })

  test('keeps its bookings and its turns with their plans', async () => {
    const store = await aStoreOfBefore()
    const snapshot = await store.load(siteId, hours(0, 24), at(0))
    expect(snapshot?.planningVersion).toBe(7)
    expect(snapshot?.bookings.map(({ title }) => title)).toEqual(['Supper', 'The games'])
    expect(snapshot?.turns.map(({ status, plan }) => [status, plan?.tasks.length])).toEqual([
      ['failing', undefined],
      ['ready', 2],
    ])
    expect(snapshot?.closures.map(({ id }) => id)).toEqual(['closure_floor'])
    expect(snapshot?.observations).toEqual([])
  })

  test('has no hold, no link and no warning, and nothing that was put off', async () => {
    const store = await aStoreOfBefore()
    const { items } = await store.bookings(siteId, everything, { roomId: null }, firstPage)
    expect(items).toHaveLength(2)
    for (const booking of items)
      expect(booking).toMatchObject({
        status: 'CONFIRMED',
        holdExpiresAt: null,
        linkId: null,
        keepAsSet: false,
        keptUntilAt: null,
        priority: 0,
        quietNeeded: false,
        crewDemands: [],
        milestones: [],
        ownHelp: null,
        riskAccepted: null,
      })
    expect(await store.judgedThroughAt(siteId)).toBeNull()
    expect(await store.nextHoldExpiry(at(-99))).toBeNull()
    expect((await store.warnedTurns(siteId, at(-99), firstPage)).items).toEqual([])
    expect((await store.bookingsAtRisk(siteId, at(-99), firstPage)).items).toEqual([])
    const turns = (await store.turns(siteId, everything, firstPage)).items
    for (const { purpose, judgement } of turns)
      expect({ purpose, ...judgement }).toMatchObject({
        purpose: 'prepare',
        warnedSince: null,
        polishedAt: null,
      })
    expect(turns[1]?.plan).toMatchObject({ chain: [], smoothness: null })
    const setup = await store.setup(siteId)
    expect(setup?.policy).toMatchObject({
      planningHands: 0,
      paidPersonSecondsMost: null,
      justInTimeFromGapSeconds: null,
      returnHomeAfterSeconds: null,
      replanTurnsMost: 24,
    })
    expect(setup?.shifts.map(({ paid }) => paid)).toEqual([false, false])
  })

  test('has turns with plans to be gone over, whose plans are still the same to the audit', async () => {
    const store = await aStoreOfBefore()
    const due = await store.turnsToPolish(siteId, at(-48), at(200), 9)
    expect(due.map(({ id }) => id)).toEqual(['turn_games'])
    const turn = await store.turn(siteId, due[0]!.id)
    const polished = { ...turn!, judgement: { ...turn!.judgement, polishedAt: at(-47) } }
    const go = { bookings: [], turns: [{ before: turn, after: polished }], setup: [], judgedThroughAt: at(9) }
    await store.commit(aCommit({ planningVersionExpected: 7, action: 'polish', changes: go }))
    expect(await store.turn(siteId, turn!.id)).toEqual(polished)
    expect(await store.turnsToPolish(siteId, at(-48), at(200), 9)).toEqual([])
    const replayed = stateFromAudit((await store.audit(siteId, firstPage)).items)
    expect(replayed).toEqual(await store.recordedState(siteId))
  })

  test('is planned and changed on, and its whole audit still replays', async () => {
    const store = await aStoreOfBefore()
    const replayed = async () => stateFromAudit((await store.audit(siteId, firstPage)).items)
    expect(await replayed()).toEqual(await store.recordedState(siteId))

    const room = await store.setupRow(siteId, 'room', 'room_east')
    await store.commit(
      aCommit({
        planningVersionExpected: 7,
        action: 'change-room',
        setup: [change('room', room!.row, { occupantLimitPosted: 200 }), oneOfEach.exit],
      }),
    )
    const shift = await store.setupRow(siteId, 'shift', 'shift_wren')
    await store.commit(aCommit({ planningVersionExpected: 8, setup: [retirement('shift', shift!.row)] }))
    const [games] = (await store.bookings(siteId, everything, { roomId: null }, firstPage)).items.filter(
      ({ id }) => id === 'booking_games',
    )
    const turn = await store.turn(siteId, games!.turnId)
    await store.commit(
      aCommit({
        planningVersionExpected: 9,
        action: 'cancel',
        changes: {
          bookings: [{ before: games!, after: { ...games!, status: 'CANCELLED', version: 2 } }],
          turns: [{ before: turn, after: { ...turn!, status: 'dropped', plan: null } }],
          setup: [],
        },
      }),
    )
    await store.commit(booked([aBooking('late', { doors: 80 })], { planningVersionExpected: 10 }))

    expect(await store.setupRow(siteId, 'room', 'room_east')).toMatchObject({
      row: { occupantLimitPosted: 200 },
      version: 2,
    })
    expect((await store.setup(siteId))?.retired.shifts.map(({ id }) => id)).toEqual(['shift_wren'])
    expect(await replayed()).toEqual(await store.recordedState(siteId))
  })
})
