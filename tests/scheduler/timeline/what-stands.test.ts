/** What stands before a booking, where a room is used whole and in parts by turns. */
import { describe, expect, test } from 'vitest'
import { turnInputOf } from '../../../src/scheduler/timeline/turn-input.ts'
import { whatStandsBefore } from '../../../src/scheduler/timeline/what-stands.ts'
import { worldOf } from '../../../src/scheduler/timeline/world.ts'
import { aBooking, aHall } from '../decide/a-hall.ts'

/** A banquet in the whole room, then a meeting in its south half, then games in the whole room. */
const banquet = aBooking({
  name: 'banquet',
  layout: 'long-banquet',
  doors: '2026-06-05T10:00',
  clear: '2026-06-05T12:00',
  headcount: 101,
})
const meeting = aBooking({
  name: 'meeting',
  layout: 'south-meeting',
  doors: '2026-06-05T14:00',
  clear: '2026-06-05T15:00',
  headcount: 30,
})
const games = aBooking({
  name: 'games',
  layout: 'long-games',
  doors: '2026-06-05T18:00',
  clear: '2026-06-05T21:00',
})
const world = worldOf({ ...aHall(), bookings: [banquet, meeting, games] })
const standing = (booking: typeof games, piece: string) =>
  whatStandsBefore(world, booking).pieces.find(({ furnishingId }) => furnishingId === `furnishing_${piece}`)
    ?.count ?? 0

describe('a half of a room, after the whole of it', () => {
  test('holds its share of the pieces, and the other half the rest: none is invented, none is lost', () => {
    const inSouth = standing(meeting, 'round-table')
    const leftInNorth = standing(games, 'round-table')
    expect([inSouth, leftInNorth].sort()).toEqual([7, 8])
    expect(standing(meeting, 'cloth') + standing(games, 'cloth')).toBe(15)
    // The north half still has its chairs of the banquet, the south half the 40 of the meeting.
    expect(standing(games, 'chair')).toBe(120 - standing(meeting, 'chair') + 40)
  })

  test('is left with its share of the rubbish too', () => {
    expect(turnInputOf(world, meeting).network.outgoing?.headcount).toBe(51)
    expect(turnInputOf(world, games).network.outgoing?.headcount).toBe(Math.ceil(101 / 2 + 30))
  })
})
