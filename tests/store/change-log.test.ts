import { describe, expect, test } from 'vitest'
import { SiteId } from '../../src/domain/ids.ts'
import { Site } from '../../src/domain/site.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import { Conflict } from '../../src/store/store.ts'
import { aStoreOnFile } from './a-database-file.ts'
import {
  aBooking,
  aCommit,
  addition,
  anAnswer,
  aPolicy,
  aStore,
  at,
  booked,
  founding,
  site,
  siteId,
  wrensDetails,
} from './a-world.ts'

const otherId = SiteId.parse('site_sandpiper')
const other = Site.parse({ id: otherId, name: 'Sandpiper Rooms', zone: 'Asia/Kolkata' })
const elsewhere = (id: string) => addition('section', { ...aSection(id), siteId: otherId })
const aSection = (id: string) => ({ id, name: id, areaSquareMetres: 20, floorKind: 'sealed-wood' })

/** One site after the other, then both in turn. */
async function aStoreOfTwoSites() {
  const store = await aStore()
  const before = await store.newestChange()
  const there = { siteId: otherId, planningVersionExpected: null }
  const policy = aPolicy('policy_there')
  const setup = [{ ...policy, after: { ...policy.after, siteId: otherId } }] as (typeof policy)[]
  await store.commit(aCommit({ ...there, site: other, setup }))
  for (const word of ['one', 'two']) {
    await store.commit(
      aCommit({ planningVersionExpected: null, setup: [addition('section', aSection(`section_${word}`))] }),
    )
    await store.commit(aCommit({ ...there, setup: [elsewhere(`section_there-${word}`)] }))
  }
  return { store, before }
}

describe('the change log', () => {
  test('tells what each commit did, oldest first, with the clock of the site', async () => {
    const store = await aStore()
    const before = await store.newestChange()
    const dinner = aBooking('dinner')
    await store.commit(booked([dinner]))
    const common = { siteId, auditSequence: 2, at: at(-48), what: 'added', zone: 'Europe/London' }
    expect(await store.changesAfter(null, before, 100)).toEqual([
      { ...common, sequence: before + 1, resourceKind: 'booking', resourceId: dinner.id },
      { ...common, sequence: before + 2, resourceKind: 'turn', resourceId: dinner.turnId },
    ])
    expect(await store.newestChange()).toBe(before + 2)
    expect(await store.changesAfter(null, before + 2, 100)).toEqual([])
  })

  test('tells the changes of one site, of several, or of all, and no more than asked for', async () => {
    const { store, before } = await aStoreOfTwoSites()
    const told = async (siteIds: readonly SiteId[] | null, sequence: number, most: number) =>
      (await store.changesAfter(siteIds, sequence, most)).map((entry) => [
        entry.sequence - before,
        entry.resourceId,
      ])
    const both = [
      [1, 'site_sandpiper'],
      [2, 'policy_there'],
      [3, 'section_one'],
      [4, 'section_there-one'],
      [5, 'section_two'],
      [6, 'section_there-two'],
    ]
    expect(await told(null, before, 100)).toEqual(both)
    expect(await told([siteId, otherId], before, 100)).toEqual(both)
    expect(await told([otherId, siteId], before, 4)).toEqual(both.slice(0, 4))
    expect(await told(null, before + 2, 3)).toEqual(both.slice(2, 5))
    expect(await told([siteId], before, 100)).toEqual([both[2], both[4]])
    expect(await told([otherId], before + 1, 2)).toEqual([both[1], both[3]])
    expect(await told([], before, 100)).toEqual([])
    expect(await told([SiteId.parse('site_nowhere')], 0, 100)).toEqual([])
  })

  test('holds nothing before anything was done', async () => {
    const store = await openSqliteStore({ file: ':memory:' })
    expect(await store.newestChange()).toBe(0)
    expect(await store.changesAfter(null, 0, 100)).toEqual([])
  })

  test('never says who a person is', async () => {
    const store = await aStore()
    await store.commit(
      aCommit({
        planningVersionExpected: null,
        personDetails: [{ ...wrensDetails, phone: '0100 555 0199' }],
      }),
    )
    const told = JSON.stringify(await store.changesAfter(null, 0, 1_000))
    expect(told).toContain('person_wren')
    expect(told).not.toMatch(/Alderbeck|0100/)
  })

  test('is read by its index, in its own order, and never walked or sorted', async () => {
    const { raw, store } = await aStoreOnFile()
    await store.commit(booked([aBooking('dinner')]))
    const plan = (where: string) =>
      raw
        .prepare(
          `EXPLAIN QUERY PLAN SELECT change_log.*, site.zone FROM change_log LEFT JOIN site
           ON site.id = change_log.site_id WHERE ${where} ORDER BY change_log.sequence LIMIT 5`,
        )
        .all()
        .map((row) => String(Object(row).detail))
    expect(plan('sequence > 7')[0]).toBe('SEARCH change_log USING INTEGER PRIMARY KEY (rowid>?)')
    expect(plan(`site_id = '${siteId}' AND sequence > 7`)[0]).toBe(
      'SEARCH change_log USING INDEX change_log_site (site_id=? AND sequence>?)',
    )
    for (const where of ['sequence > 7', `site_id = '${siteId}' AND sequence > 7`])
      expect(plan(where).join()).not.toMatch(/SCAN|TEMP/)
  })
})

describe('whoever listens for commits', () => {
  test('is told after each that was written, when it can be read, and of none that was not', async () => {
    const store = await openSqliteStore({ file: ':memory:' })
    let told = 0
    const stop = store.onCommit(() => {
      told += 1
    })
    await store.commit(founding)
    expect(told).toBe(1)
    await store.commit(booked([aBooking('first')]))
    expect(told).toBe(2)
    await expect(store.commit(booked([aBooking('second', { doors: 10 })]))).rejects.toThrow(Conflict)
    await store.keepAnswer(anAnswer({ key: 'refused' }), at(0))
    expect(told).toBe(2)
    stop()
    await store.commit(aCommit({ planningVersionExpected: null, site: { ...site, name: 'Larch Yard' } }))
    expect(told).toBe(2)
  })

  test('may listen twice, and each is told until it stops for itself', async () => {
    const store = await aStore()
    let told = 0
    const listener = () => {
      told += 1
    }
    const stopFirst = store.onCommit(listener)
    const stopSecond = store.onCommit(listener)
    await store.commit(booked([aBooking('first')]))
    expect(told).toBe(2)
    stopFirst()
    stopFirst()
    await store.commit(booked([aBooking('second', { doors: 10 })], { planningVersionExpected: 2 }))
    expect(told).toBe(3)
    stopSecond()
  })
})
