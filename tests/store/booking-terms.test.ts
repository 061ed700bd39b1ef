import { describe, expect, test } from 'vitest'
import type { Booking } from '../../src/domain/booking.ts'
import { Conflict } from '../../src/store/store.ts'
import { aStoreOnFile } from './a-database-file.ts'
import { aBooking, aCommit, actorId, aStore, at, booked, change, changes, siteId } from './a-world.ts'

/** Everything that a booking may ask for or bring along. */
const terms = {
  status: 'TENTATIVE',
  holdExpiresAt: at(-2),
  linkId: 'link_spring',
  keepAsSet: true,
  keptUntilAt: at(20),
  priority: 7,
  quietNeeded: true,
  crewDemands: [
    { what: 'ushers', fromAt: at(0), toAt: at(3), hands: 2, skill: null },
    { what: 'desk', fromAt: at(0), toAt: at(2), hands: 1, skill: 'sound' },
  ],
  milestones: [{ milestone: 'tables-up', byAt: at(-1) }],
  ownHelp: { hands: 4, seconds: 900 },
  riskAccepted: { actorId, why: 'The guests were told', acceptedAt: at(-48) },
}

const moved = (before: Booking, rest: object) =>
  changes({ bookings: [{ before, after: { ...before, version: before.version + 1, ...rest } }] })

describe('what a booking asks for and brings along', () => {
  test('is read again as it was written, when it is new and when it is changed', async () => {
    const store = await aStore()
    const plain = aBooking('plain', { room: 'west' })
    const dinner = aBooking('dinner', terms)
    await store.commit(booked([plain, dinner]))
    expect(await store.booking(siteId, dinner.id)).toEqual(dinner)
    expect(await store.booking(siteId, plain.id)).toEqual(plain)
    const withTerms = { ...aBooking('plain', { room: 'west', ...terms }), version: 2 }
    const withoutTerms = { ...aBooking('dinner'), version: 2 }
    const swapped = changes({
      bookings: [
        { before: plain, after: withTerms },
        { before: dinner, after: withoutTerms },
      ],
    })
    await store.commit(aCommit({ planningVersionExpected: 2, changes: swapped }))
    expect(await store.booking(siteId, plain.id)).toEqual(withTerms)
    expect(await store.booking(siteId, dinner.id)).toEqual(withoutTerms)
  })

  test('is nothing in the database where there is nothing, and no text that says so', async () => {
    const { store, raw } = await aStoreOnFile()
    const kinds = () =>
      raw
        .prepare(
          `SELECT typeof(own_help), typeof(risk_accepted), typeof(link_id), typeof(hold_expires_at) FROM booking`,
        )
        .raw()
        .all()
    const plain = aBooking('plain')
    await store.commit(booked([plain]))
    expect(kinds()).toEqual([['null', 'null', 'null', 'null']])
    await store.commit(
      aCommit({ planningVersionExpected: 2, changes: moved(plain, aBooking('plain', terms)) }),
    )
    const changed = await store.booking(siteId, plain.id)
    await store.commit(aCommit({ planningVersionExpected: 3, changes: moved(changed!, plain) }))
    expect(kinds()).toEqual([['null', 'null', 'null', 'null']])
  })
})

describe('a room that is kept as it is set', () => {
  const kept = { doors: 0, clear: 3, keepAsSet: true, linkId: 'link_spring', keptUntilAt: at(20) }

  test('is refused to others until the next booking of the link, and is free after it', async () => {
    const store = await aStore()
    await store.commit(booked([aBooking('friday', kept), aBooking('saturday', { doors: 20 })]))
    const at5 = (room: string) =>
      booked([aBooking('other', { room, doors: 5 })], { planningVersionExpected: 2 })
    await expect(store.commit(at5('east'))).rejects.toThrow(Conflict)
    await expect(store.commit(at5('whole'))).rejects.toThrow(Conflict)
    await expect(store.commit(at5('west'))).resolves.toBe(3)
  })

  test('is free again once it is not kept any more, or cancelled', async () => {
    for (const rest of [{ keepAsSet: false, keptUntilAt: null }, { status: 'CANCELLED' }]) {
      const store = await aStore()
      const friday = aBooking('friday', kept)
      await store.commit(booked([friday]))
      await store.commit(aCommit({ planningVersionExpected: 2, changes: moved(friday, rest) }))
      await store.commit(booked([aBooking('other', { doors: 5 })], { planningVersionExpected: 3 }))
      store.close()
    }
  })

  test('stays kept when it is made of other sections, also while nobody is in it', async () => {
    const { store, raw } = await aStoreOnFile()
    await store.commit(booked([aBooking('friday', kept), aBooking('over', { doors: -9 })]))
    const room = await store.setupRow(siteId, 'room', 'room_east')
    const wider = change('room', room!.row, { sectionIds: ['section_east', 'section_west'] })
    await store.commit(aCommit({ planningVersionExpected: 2, at: at(10), setup: [wider] }))
    const held = raw
      .prepare(`SELECT booking_id, section_id, from_at, to_at FROM section_occupancy ORDER BY 1, 2`)
      .raw()
      .all()
    expect(held).toEqual([
      ['booking_friday', 'section_east', at(0), at(20)],
      ['booking_friday', 'section_west', at(0), at(20)],
      ['booking_over', 'section_east', at(-9), at(-6)],
    ])
  })
})

describe('the database itself refuses', () => {
  test('a hold without an end, a room kept until before it is clear or for more than 31 days, and a priority past nine', async () => {
    const { store, raw } = await aStoreOnFile()
    await store.commit(booked([aBooking('dinner')]))
    const set = (what: string) => () => raw.prepare(`UPDATE booking SET ${what}`).run()
    expect(set(`status = 'TENTATIVE'`)).toThrow('booking_hold_expires')
    expect(set(`status = 'TENTATIVE', hold_expires_at = 0`)).not.toThrow()
    expect(set('kept_until_at = clear_at - 1')).toThrow('booking_kept')
    expect(set('kept_until_at = doors_at + 31 * 86400000 + 1')).toThrow('booking_kept')
    expect(set('kept_until_at = doors_at + 31 * 86400000')).not.toThrow()
    expect(set('priority = 10')).toThrow('booking_priority')
    expect(set('priority = -1')).toThrow('booking_priority')
    expect(set('keep_as_set = 2')).toThrow('booking_keep_as_set')
    expect(set('quiet_needed = 2')).toThrow('booking_quiet_needed')
    expect(() => raw.prepare(`UPDATE turn SET purpose = 'tidy'`).run()).toThrow('turn_purpose')
  })

  test('to keep two notes of how far the turns of a site are judged', async () => {
    const { store, raw } = await aStoreOnFile()
    await store.commit(aCommit({ changes: changes({ judgedThroughAt: at(5) }) }))
    const insert = raw.prepare('INSERT INTO judging (site_id, judged_through_at) VALUES (?, ?)')
    expect(() => insert.run(siteId, at(6))).toThrow('UNIQUE')
    expect(() => insert.run('site_elm', at(6))).toThrow('FOREIGN KEY')
  })
})
