import { describe, expect, test } from 'vitest'
import type { HalfOpenInterval } from '../../../src/domain/half-open-interval.ts'
import type { Instant } from '../../../src/domain/instant.ts'
import { instantFromLocal, isoInZone } from '../../../src/scheduler/timeline/wall-time.ts'
import { weeklyIntervals } from '../../../src/scheduler/timeline/weekly-intervals.ts'

const everyDay = [1, 2, 3, 4, 5, 6, 7]
const span = (zone: string, from: string, to: string): HalfOpenInterval => ({
  fromAt: instantFromLocal(zone, from).instant,
  toAt: instantFromLocal(zone, to).instant,
})
const shown = (zone: string, intervals: readonly HalfOpenInterval[]) =>
  intervals.map(({ fromAt, toAt }) => `${isoInZone(fromAt, zone)} ${isoInZone(toAt, zone)}`)
const hours = (intervals: readonly HalfOpenInterval[]) =>
  intervals.map(({ fromAt, toAt }) => (toAt - fromAt) / 3_600_000)

describe('a weekly pattern', () => {
  test('holds on its weekdays, ISO 8601 numbered, and on no others', () => {
    const zone = 'Europe/London'
    const pattern = {
      weekdays: [5],
      fromLocal: '18:00',
      toLocal: '22:00',
      firstDate: null,
      lastDate: null,
      exceptions: [],
    }
    const found = weeklyIntervals(pattern, zone, span(zone, '2026-06-01T00:00', '2026-06-15T00:00'))
    expect(shown(zone, found)).toEqual([
      '2026-06-05T18:00:00+01:00 2026-06-05T22:00:00+01:00',
      '2026-06-12T18:00:00+01:00 2026-06-12T22:00:00+01:00',
    ])
  })

  test('that ends at or before its start runs into the next day, also from the evening before the window', () => {
    const zone = 'America/Chicago'
    const pattern = {
      weekdays: [6],
      fromLocal: '20:00',
      toLocal: '02:00',
      firstDate: null,
      lastDate: null,
      exceptions: [],
    }
    const found = weeklyIntervals(pattern, zone, span(zone, '2026-06-07T01:00', '2026-06-08T00:00'))
    expect(shown(zone, found)).toEqual(['2026-06-06T20:00:00-05:00 2026-06-07T02:00:00-05:00'])
  })

  test('keeps to its first and last day', () => {
    const zone = 'Europe/London'
    const pattern = {
      weekdays: everyDay,
      fromLocal: '09:00',
      toLocal: '10:00',
      firstDate: '2026-06-03',
      lastDate: '2026-06-04',
      exceptions: [],
    }
    const found = weeklyIntervals(pattern, zone, span(zone, '2026-06-01T00:00', '2026-06-10T00:00'))
    expect(hours(found)).toEqual([1, 1])
  })

  test('has days off and days with other times, and a day it does not have is not made one', () => {
    const zone = 'Europe/London'
    const pattern = {
      weekdays: [5],
      fromLocal: '18:00',
      toLocal: '22:00',
      firstDate: null,
      lastDate: null,
      exceptions: [
        { date: '2026-06-05', times: null },
        { date: '2026-06-12', times: { fromLocal: '20:00', toLocal: '01:00' } },
        { date: '2026-06-13', times: { fromLocal: '08:00', toLocal: '09:00' } },
      ],
    }
    const found = weeklyIntervals(pattern, zone, span(zone, '2026-06-01T00:00', '2026-06-20T00:00'))
    expect(shown(zone, found)).toEqual([
      '2026-06-12T20:00:00+01:00 2026-06-13T01:00:00+01:00',
      '2026-06-19T18:00:00+01:00 2026-06-19T22:00:00+01:00',
    ])
  })
})

// Clock changes: IANA time zone data, release 2025b.
describe('on the day the clock changes', () => {
  const night = {
    weekdays: everyDay,
    fromLocal: '22:00',
    toLocal: '08:00',
    firstDate: null,
    lastDate: null,
    exceptions: [],
  }
  test.each([
    ['America/Chicago', '2026-03-07', 9],
    ['America/Chicago', '2026-10-31', 11],
    ['Europe/London', '2026-03-28', 9],
    ['Europe/London', '2026-10-24', 11],
    ['Australia/Lord_Howe', '2026-04-04', 10.5],
    ['Australia/Lord_Howe', '2026-10-03', 9.5],
  ])('a night shift in %s that begins on %s is %d hours long', (zone, date, length) => {
    const pattern = { ...night, firstDate: date, lastDate: date }
    const found = weeklyIntervals(pattern, zone, span(zone, `${date}T12:00`, `${date}T23:59`))
    expect(hours(found)).toEqual([length])
  })

  test('a day that opens at a time the clock jumps over opens when the clock has jumped', () => {
    const zone = 'America/Chicago'
    const pattern = {
      weekdays: [7],
      fromLocal: '02:30',
      toLocal: '12:00',
      firstDate: null,
      lastDate: null,
      exceptions: [],
    }
    const found = weeklyIntervals(pattern, zone, span(zone, '2026-03-08T00:00', '2026-03-09T00:00'))
    expect(shown(zone, found)).toEqual(['2026-03-08T03:30:00-05:00 2026-03-08T12:00:00-05:00'])
  })

  test('a span that the clock swallows whole is left out', () => {
    const zone = 'America/Chicago'
    const pattern = {
      weekdays: [7],
      fromLocal: '02:00',
      toLocal: '03:00',
      firstDate: null,
      lastDate: null,
      exceptions: [],
    }
    const window = { fromAt: 1772949600000 as Instant, toAt: 1773032400000 as Instant } // Sunday 8 March 2026
    expect(weeklyIntervals(pattern, zone, window)).toEqual([])
  })
})
