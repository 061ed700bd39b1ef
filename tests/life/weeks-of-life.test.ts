/**
 * Nine days of life through the real service, on a real database, the clock a parameter: bookings and their ends, holds
 * that lapse, crew that stays away, closures, rates and policies, and what the service does by itself in between. In
 * each of these weeks the clock is put forward or back.
 */
import { describe, expect, test } from 'vitest'
import { brokenInvariants } from '../../src/scheduler/decide/index.ts'
import { everything } from './everything.ts'
import { verified } from './verified.ts'
import { liveThrough } from './weeks.ts'

const weeks = [
  { zone: 'America/Chicago', firstDate: '2026-03-04', seed: 1 },
  { zone: 'Europe/London', firstDate: '2026-10-21', seed: 2 },
  { zone: 'Pacific/Auckland', firstDate: '2026-04-01', seed: 5 },
]

describe('a service that lives through a week in which the clock changes', () => {
  test.each(weeks)(
    'keeps every promise in $zone from $firstDate, and what is stored is right at the end',
    async (week) => {
      const life = await liveThrough(
        { ...week, days: 9 },
        {
          atFirst: async () => {},
          eachDay: async ({ service, siteId }) => {
            const all = await everything(service.store, siteId, service.now())
            expect(brokenInvariants(all)).toEqual([])
          },
          atLast: async ({ service }) => {
            expect(await verified(service.file, service.now())).toEqual([])
          },
        },
      )
      // Worth something only if it met yes and no, and the service did something by itself.
      const sum = (wanted: RegExp) =>
        [...life.answers].reduce((count, [name, times]) => count + (wanted.test(name) ? times : 0), 0)
      expect(sum(/ 20[01]$/)).toBeGreaterThan(30)
      expect(sum(/ 409 /)).toBeGreaterThan(3)
      expect(sum(/ 5\d\d/)).toBe(0)
      expect(life.ownWrites).toBeGreaterThan(5)
    },
    300_000,
  )
})
