import { describe, expect, test } from 'vitest'
import { LinkId, SiteId } from '../../src/domain/ids.ts'
import { holdQueries } from '../../src/store/read-holds.ts'
import { aBooking, aCommit, added, addition, aStore, at, booked, changes, site, siteId } from './a-world.ts'
import { oneOfEach } from './one-of-each.ts'
import { querySteps } from './query-steps.ts'

const aHold = (word: string, doors: number, expires: number, rest: object = {}) =>
  aBooking(word, { doors, status: 'TENTATIVE', holdExpiresAt: at(expires), ...rest })
const words = (rows: readonly { id: string }[]) => rows.map(({ id }) => id.replace('booking_', ''))

const elsewhere = SiteId.parse('site_elm-court')
/** Another site, with one room and a hold in it. */
const atElmCourt = aCommit({
  siteId: elsewhere,
  planningVersionExpected: null,
  site: { ...site, id: elsewhere },
  setup: [
    addition('section', { ...oneOfEach.section.after, siteId: elsewhere }),
    addition('room', { ...oneOfEach.room.after, siteId: elsewhere, sectionIds: ['section_foyer'] }),
    addition('layout', { ...oneOfEach.layout.after, siteId: elsewhere, roomId: 'room_attic' }),
  ],
  changes: changes({
    bookings: [
      added(aHold('elm', 0, -11, { siteId: elsewhere, roomId: 'room_attic', layoutId: 'layout_east-bare' })),
    ],
  }),
})

describe('holds whose time is over', () => {
  test('are those of every site that end now or have ended, the first to end in front, so many at most', async () => {
    const store = await aStore()
    await store.commit(
      booked([
        aHold('second', 0, -10),
        aHold('first', 20, -12),
        aHold('now', 40, 0),
        aHold('b-same', 60, -10),
        aHold('later', 80, 1),
        aBooking('firm', { doors: 100, holdExpiresAt: at(-11) }),
        aHold('gone', 120, -11, { status: 'CANCELLED' }),
      ]),
    )
    await store.commit(atElmCourt)
    const expired = async (most: number) =>
      (await store.holdsExpired(at(0), most)).map(({ bookingId }) => bookingId.replace('booking_', ''))
    expect(await expired(10)).toEqual(['first', 'elm', 'b-same', 'second', 'now'])
    expect(await expired(2)).toEqual(['first', 'elm'])
    expect(await store.holdsExpired(at(-11.5), 9)).toEqual([
      { siteId, bookingId: 'booking_first', holdExpiresAt: at(-12) },
    ])
    expect(await store.holdsExpired(at(-13), 9)).toEqual([])
  })

  test('come next at the end of the first hold that still runs', async () => {
    const store = await aStore()
    expect(await store.nextHoldExpiry(at(0))).toBeNull()
    const hold = aHold('later', 20, 2)
    await store.commit(booked([aHold('over', 0, 0), hold, aHold('last', 40, 3)]))
    expect(await store.nextHoldExpiry(at(-1))).toBe(at(0))
    expect(await store.nextHoldExpiry(at(0))).toBe(at(2))
    const firm = { ...hold, status: 'CONFIRMED' as const, version: 2 }
    const confirm = changes({ bookings: [{ before: hold, after: firm }] })
    await store.commit(aCommit({ planningVersionExpected: 2, action: 'confirm', changes: confirm }))
    expect(await store.nextHoldExpiry(at(0))).toBe(at(3))
    expect(await store.nextHoldExpiry(at(3))).toBeNull()
  })
})

describe('the bookings of a link', () => {
  const linkId = LinkId.parse('link_spring')

  test('are those of this site that are not cancelled, by doors, then id', async () => {
    const store = await aStore()
    await store.commit(
      booked([
        aBooking('sunday', { doors: 48, linkId }),
        aBooking('b-friday', { doors: 0, linkId, room: 'west' }),
        aBooking('a-friday', { doors: 0, linkId }),
        aHold('saturday', 24, -1, { linkId }),
        aBooking('gone', { doors: 30, linkId, status: 'CANCELLED' }),
        aBooking('other', { doors: 60, linkId: 'link_autumn' }),
        aBooking('alone', { doors: 70 }),
      ]),
    )
    expect(words(await store.linkedBookings(siteId, linkId))).toEqual([
      'a-friday',
      'b-friday',
      'saturday',
      'sunday',
    ])
    expect(await store.linkedBookings(siteId, LinkId.parse('link_none'))).toEqual([])
    expect(await store.linkedBookings(elsewhere, linkId)).toEqual([])
  })
})

test('holds and links are looked up in order, and never walked for through all bookings', () => {
  expect(querySteps(holdQueries)).toEqual([
    'SEARCH booking USING INDEX booking_hold (hold_expires_at<?)',
    'SEARCH booking USING COVERING INDEX booking_hold (hold_expires_at>?)',
    'SEARCH booking USING INDEX booking_link (site_id=? AND link_id=?)',
  ])
})
