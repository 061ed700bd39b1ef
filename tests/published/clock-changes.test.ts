/**
 * Clock changes of 2026 against the IANA time zone data (release 2025b), and the reading of local times that occur
 * twice or never against RFC 5545, section 3.3.5.
 */
import { describe, expect, test } from 'vitest'
import { instantFromLocal, isoInZone } from '../../src/scheduler/timeline/wall-time.ts'

const utc = (text: string) => Date.parse(text)

describe('a local time on the day the clock changes', () => {
  test.each([
    // zone, local text, the moment, whether the clock shows it on that day
    ['America/Chicago', '2026-03-08T01:59', '2026-03-08T07:59:00Z', true],
    ['America/Chicago', '2026-03-08T02:30', '2026-03-08T08:30:00Z', false],
    ['America/Chicago', '2026-03-08T03:00', '2026-03-08T08:00:00Z', true],
    ['America/Chicago', '2026-11-01T01:30', '2026-11-01T06:30:00Z', true],
    ['America/Chicago', '2026-11-01T02:00', '2026-11-01T08:00:00Z', true],
    ['Europe/London', '2026-03-29T01:30', '2026-03-29T01:30:00Z', false],
    ['Europe/London', '2026-10-25T01:30', '2026-10-25T00:30:00Z', true],
    ['Australia/Lord_Howe', '2026-10-04T02:15', '2026-10-03T15:45:00Z', false],
    ['Australia/Lord_Howe', '2026-10-04T02:30', '2026-10-03T15:30:00Z', true],
    ['Australia/Lord_Howe', '2026-04-05T01:45', '2026-04-04T14:45:00Z', true],
    ['America/New_York', '2007-03-11T02:30', '2007-03-11T07:30:00Z', false],
    ['America/New_York', '2007-11-04T01:30', '2007-11-04T05:30:00Z', true],
  ])('%s %s is %s', (zone, local, moment, exists) => {
    expect(instantFromLocal(zone, local)).toEqual({ instant: utc(moment), exists })
  })

  test('what does not exist is shown as what the clock shows instead', () => {
    const shown = (zone: string, local: string) => isoInZone(instantFromLocal(zone, local).instant, zone)
    expect(shown('America/Chicago', '2026-03-08T02:30')).toBe('2026-03-08T03:30:00-05:00')
    expect(shown('Australia/Lord_Howe', '2026-10-04T02:15')).toBe('2026-10-04T02:45:00+11:00')
  })
})

describe('a night of ten hours by the clock', () => {
  test.each([
    ['America/Chicago', '2026-03-07T22:00', '2026-03-08T08:00', 9],
    ['America/Chicago', '2026-10-31T22:00', '2026-11-01T08:00', 11],
    ['Europe/London', '2026-03-28T22:00', '2026-03-29T08:00', 9],
    ['Australia/Lord_Howe', '2026-04-04T22:00', '2026-04-05T08:00', 10.5],
  ])('in %s from %s to %s is %d hours long', (zone, from, to, hours) => {
    const seconds = (instantFromLocal(zone, to).instant - instantFromLocal(zone, from).instant) / 1000
    expect(seconds / 3600).toBe(hours)
  })
})
