import { describe, expect, test } from 'vitest'
import { setupWrite } from '../../src/api/setup/setup-write.ts'
import { spanOf } from '../../src/api/setup/span-of.ts'
import { Instant } from '../../src/domain/instant.ts'
import type { SetupKind } from '../../src/domain/setup.ts'
import { aRow, hours, plainRows } from './a-setup.ts'

const now = Instant.parse(hours(0))
const DAY = 24

/** In hours from now. */
function spanInHours<Kind extends SetupKind>(
  kind: Kind,
  after: object,
  before: object | null = null,
  lastDueAt: Instant | null = null,
) {
  const write = setupWrite(kind, before && aRow(kind, before), aRow(kind, after), false)
  const { fromAt, toAt } = spanOf(write, 'America/Chicago', now, lastDueAt).span
  return [(fromAt - now) / 3_600_000, (toAt - now) / 3_600_000]
}

describe('turns are judged anew', () => {
  test('for the next 28 days, where a change has no time of its own', () => {
    expect(spanInHours('furnishing', {})).toEqual([0, 28 * DAY])
    expect(spanInHours('policy', {})).toEqual([0, 28 * DAY])
    expect(spanInHours('observation', { seenAt: hours(-100) })).toEqual([0, 28 * DAY])
  })

  test('as far as the turns that are to come, where those reach further', () => {
    expect(spanInHours('policy', {}, null, Instant.parse(hours(90 * DAY)))).toEqual([0, 90 * DAY])
    expect(
      spanInHours('closure', { fromAt: hours(1), toAt: hours(2) }, null, Instant.parse(hours(90 * DAY))),
    ).toEqual([1, 2])
  })

  test('while a closure or a single shift lasts, as far as that is still to come', () => {
    expect(spanInHours('closure', { fromAt: hours(50), toAt: hours(60 * DAY) })).toEqual([50, 60 * DAY])
    expect(spanInHours('closure', { fromAt: hours(-5), toAt: hours(5) })).toEqual([0, 5])
    const times = { kind: 'once', startsAt: hours(7), endsAt: hours(10) }
    expect(spanInHours('shift', { times })).toEqual([7, 10])
  })

  test('over both times, where something moves', () => {
    const early = { fromAt: hours(10), toAt: hours(20) }
    const late = { fromAt: hours(100), toAt: hours(120) }
    expect(spanInHours('closure', late, early)).toEqual([10, 120])
    expect(spanInHours('closure', early, late)).toEqual([10, 120])
  })

  test('for 28 days from the first day of a weekly shift or a stock change that begins later', () => {
    const times = { ...plainRows.shift.times, firstDate: '2027-01-01', exceptions: [] }
    const [from, to] = spanInHours('shift', { times })
    // Midnight at the start of 2027 in Chicago is 38 days and 15 hours on.
    expect([from, to]).toEqual([38 * DAY + 15, 66 * DAY + 15])
    expect(spanInHours('stockChange', { fromAt: hours(100), toAt: null })).toEqual([100, 100 + 28 * DAY])
    expect(spanInHours('stockChange', { fromAt: hours(100), toAt: hours(130) })).toEqual([100, 130])
  })

  test('for a moment at least, even where all of it is past, and for 1,000 days at most', () => {
    expect(spanInHours('closure', { fromAt: hours(-20), toAt: hours(-10) })).toEqual([0, 1 / 3600])
    const far = { fromAt: hours(3_000 * DAY), toAt: hours(3_001 * DAY) }
    expect(spanInHours('closure', far, { fromAt: hours(1), toAt: hours(2) })).toEqual([1, 1_000 * DAY + 1])
  })
})
