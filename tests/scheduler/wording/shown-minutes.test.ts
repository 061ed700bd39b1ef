/** What is shown of minutes and clock times agrees with itself and never flatters. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { Instant } from '../../../src/domain/instant.ts'
import { localTimeOf } from '../../../src/scheduler/timeline/wall-time.ts'
import { shownBeside, spanNeeded, spanText, spanThere } from '../../../src/scheduler/wording/shown-minutes.ts'

const doors = Date.UTC(2026, 5, 5, 21, 35)
const at = (milliseconds: number) => Instant.parse(doors + milliseconds)
/** Of the day. */
const minuteShown = (moment: Instant) => {
  const [hours = 0, minutes = 0] = localTimeOf(moment, 'UTC').split(':').map(Number)
  return hours * 60 + minutes
}
const aMoment = fc.integer({ min: -3 * 3_600_000, max: 2 * 3_600_000 }).map(at)

describe('a span', () => {
  test('is told in minutes up to two hours, then in hours and minutes', () => {
    expect([0, 1, 45, 120, 121, 180, 200, 690].map(spanText)).toEqual([
      '0 min',
      '1 min',
      '45 min',
      '120 min',
      '2 h 1 min',
      '3 h',
      '3 h 20 min',
      '11 h 30 min',
    ])
  })

  test('is rounded up where it is needed, and down where it is there', () => {
    expect([spanNeeded(61), spanThere(119), spanNeeded(7_201), spanThere(7_259)]).toEqual([
      '2 min',
      '1 min',
      '2 h 1 min',
      '120 min',
    ])
  })
})

describe('a ready time beside a deadline', () => {
  test('is not shown as the deadline when it is late by seconds', () => {
    const { readyAt, lateMinutes } = shownBeside(at(20_000), at(0))
    expect([localTimeOf(readyAt, 'UTC'), lateMinutes]).toEqual(['21:36', 1])
  })

  test('is late or early by exactly what lies between the two as they are shown, for any seconds', () => {
    fc.assert(
      fc.property(aMoment, aMoment, (ready, by) => {
        const { readyAt, lateMinutes } = shownBeside(ready, by)
        expect(lateMinutes).toBe(minuteShown(readyAt) - minuteShown(by))
      }),
      { seed: 20261130, numRuns: 2_000 },
    )
  })

  test('is shown late if and only if it is, and off by less than a minute', () => {
    fc.assert(
      fc.property(aMoment, aMoment, (ready, by) => {
        const { readyAt, lateMinutes } = shownBeside(ready, by)
        expect(lateMinutes > 0).toBe(ready > by)
        expect(Math.abs(readyAt - ready)).toBeLessThan(60_000)
      }),
      { seed: 20261130, numRuns: 2_000 },
    )
  })

  test('is never shown before it is, where the deadline is a whole minute', () => {
    fc.assert(
      fc.property(aMoment, fc.integer({ min: -180, max: 120 }), (ready, minutes) => {
        expect(shownBeside(ready, at(minutes * 60_000)).readyAt).toBeGreaterThanOrEqual(ready)
      }),
      { seed: 20261130, numRuns: 2_000 },
    )
  })
})
