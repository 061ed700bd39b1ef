import { describe, expect, test } from 'vitest'
import { InstantReader } from '../../src/api/instant-text.ts'
import { wire } from '../../src/api/wire.ts'

/** What a text means, as UTC, or what is wrong with it. Clock changes: the IANA time zone database. */
function meaning(zone: string, text: string, dateAlone = false): string {
  const reader = new InstantReader(zone, 'body')
  const moment = reader.read('/startsAt', text, dateAlone)
  return moment === null ? (reader.faults[0]?.message ?? '') : new Date(moment).toISOString()
}

describe('a moment as it comes in', () => {
  test('with an offset means just that; without one, the wall clock of the site', () => {
    expect(meaning('America/Chicago', '2026-11-28T17:00:00-06:00')).toBe('2026-11-28T23:00:00.000Z')
    expect(meaning('America/Chicago', '2026-11-28T17:00+01:00')).toBe('2026-11-28T16:00:00.000Z')
    expect(meaning('America/Chicago', '2026-11-28T17:00Z')).toBe('2026-11-28T17:00:00.000Z')
    expect(meaning('America/Chicago', '2026-11-28T17:00')).toBe('2026-11-28T23:00:00.000Z')
    expect(meaning('America/Chicago', '2026-07-28T17:00:30')).toBe('2026-07-28T22:00:30.000Z')
  })

  test('that the clocks jump over is refused, with the change and what to write instead', () => {
    expect(meaning('America/Chicago', '2027-03-14T02:00')).toBe(
      '02:00 does not exist on 2027-03-14 in America/Chicago: the clocks go forward from 02:00 to 03:00. ' +
        'Write 03:00 if that much later is meant, or give the offset, such as -05:00',
    )
    expect(meaning('Europe/London', '2027-03-28T01:59')).toMatch(
      /from 01:00 to 02:00\. Write 02:59 .*\+01:00/,
    )
    expect(meaning('Australia/Lord_Howe', '2026-10-04T02:15')).toMatch(
      /from 02:00 to 02:30\. Write 02:45 .*\+11:00/,
    )
    expect(meaning('America/Chicago', '2027-03-14T03:00')).toBe('2027-03-14T08:00:00.000Z')
    expect(meaning('America/Chicago', '2027-03-14T01:59')).toBe('2027-03-14T07:59:00.000Z')
  })

  test('that occurs twice means the first', () => {
    expect(meaning('America/Chicago', '2026-11-01T01:30')).toBe('2026-11-01T06:30:00.000Z')
    expect(meaning('Europe/London', '2026-10-25T01:30')).toBe('2026-10-25T00:30:00.000Z')
    expect(meaning('Australia/Lord_Howe', '2026-04-05T01:45')).toBe('2026-04-04T14:45:00.000Z')
  })

  test('that is a date alone is the start of that day, where one is asked for', () => {
    expect(meaning('America/Chicago', '2026-11-28', true)).toBe('2026-11-28T06:00:00.000Z')
    expect(meaning('America/Chicago', '2026-11-28')).toContain('expected a date and time')
    // Midnight does not exist there on that day.
    expect(meaning('Asia/Beirut', '2026-03-29', true)).toBe('2026-03-28T22:00:00.000Z')
  })

  test('outside the years 2000 to 2099 is refused', () => {
    expect(meaning('UTC', '1999-12-31T23:59')).toContain('year 1999')
    expect(meaning('UTC', '9999-01-01T00:00')).toContain('year 9999')
    expect(meaning('UTC', '2100-01-01T00:00')).toContain('year 2100')
    expect(meaning('UTC', '2099-12-31T23:59-12:00')).toContain('outside')
  })

  test('that is not a date and time is refused', () => {
    for (const text of [
      '',
      'now',
      '28.11.2026',
      '2026-11-28 17:00',
      '2026-11-28T17',
      '2026-W48-6',
      '20261128T1700Z',
    ]) {
      expect(meaning('UTC', text), text).toContain('expected a date and time')
    }
    for (const text of ['2026-02-29T10:00', '2026-13-01T10:00', '2026-11-28T24:30', '2026-11-28T10:60']) {
      expect(meaning('UTC', text), text).toContain('no such date or time')
    }
  })
})

describe('an offset', () => {
  test('that no clock has is refused: hours from 00 to 23, minutes from 00 to 59 (RFC 3339, section 5.6)', () => {
    for (const offset of ['+99:00', '+24:00', '+06:99', '-12:60', '-24:00']) {
      expect(meaning('UTC', `2026-11-28T17:00${offset}`), offset).toBe(
        `there is no offset ${offset}: its hours go from 00 to 23 and its minutes from 00 to 59`,
      )
    }
    expect(meaning('UTC', '2026-11-28T17:00+23:59')).toBe('2026-11-27T17:01:00.000Z')
    expect(meaning('UTC', '2026-11-28T17:00-23:59')).toBe('2026-11-29T16:59:00.000Z')
    expect(meaning('UTC', '2026-11-28T17:00-00:00')).toBe('2026-11-28T17:00:00.000Z')
  })
})

describe('a moment as it goes out', () => {
  test('is ISO 8601 with the offset of the zone, wherever a field ends in At; all else stays as it is', () => {
    const at = Date.UTC(2026, 10, 28, 23)
    const value = {
      doorsAt: at,
      nothingAt: null,
      seats: at,
      list: [{ endsAt: at + 500 }],
      text: 'At',
      nested: { at },
    }
    expect(wire(value, 'America/Chicago')).toEqual({
      doorsAt: '2026-11-28T17:00:00-06:00',
      nothingAt: null,
      seats: at,
      list: [{ endsAt: '2026-11-28T17:00:00.500-06:00' }],
      text: 'At',
      nested: { at },
    })
  })
})
