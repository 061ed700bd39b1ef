/**
 * Days of life through the real service, on a real database, the clock a parameter: bookings and their ends, holds that
 * lapse, crew that stays away, closures, rates and policies, and what the service does by itself in between. In each of
 * these weeks the clocks are put forward or back. For a long look, so many weeks from each of so many seeds:
 * `LIFE_WEEKS=4 LIFE_SEEDS=5 npx vitest run tests/life/weeks-of-life.test.ts`.
 */
import { describe, expect, test } from 'vitest'
import { brokenInvariants } from '../../src/scheduler/decide/index.ts'
import { decidedOtherwise, notLoaded } from './decided-on-everything.ts'
import { everything } from './everything.ts'
import { staffedHoursOfNight } from './the-night-of-the-clocks.ts'
import { verified } from './verified.ts'
import { liveThrough } from './weeks.ts'
import { chances } from './wishes.ts'

const weeksToLive = Number(process.env.LIFE_WEEKS ?? 0)
const days = weeksToLive > 0 ? 7 * weeksToLive : 8
const seeds = Array.from({ length: Number(process.env.LIFE_SEEDS ?? 1) }, (_, index) => index + 1)

/** The night shift from 22:00 until 06:00 has 8 h on other nights. */
const weeks = [
  { zone: 'America/Chicago', firstDate: '2026-03-04', saturday: '2026-03-07', nightHours: 7 },
  { zone: 'America/Chicago', firstDate: '2026-10-28', saturday: '2026-10-31', nightHours: 9 },
  { zone: 'Europe/London', firstDate: '2026-03-25', saturday: '2026-03-28', nightHours: 7 },
  { zone: 'Pacific/Auckland', firstDate: '2026-04-01', saturday: '2026-04-04', nightHours: 9 },
].flatMap((week) => seeds.map((seed) => ({ ...week, seed })))

const PATIENCE_MILLISECONDS = 60_000 * Math.max(2, weeksToLive)

describe('a service that lives through a week in which the clocks change', () => {
  test.each(weeks)(
    'keeps every promise in $zone from $firstDate, and what is stored is right at the end (seed $seed)',
    async ({ saturday, nightHours, ...week }) => {
      const chance = chances(week.seed + 1_000)
      const life = await liveThrough(
        { ...week, days },
        {
          atFirst: async (begun) => {
            expect(await staffedHoursOfNight(begun, saturday)).toBe(nightHours)
          },
          eachDay: async (lived) => {
            const { service, siteId } = lived
            const all = await everything(service.store, siteId, service.now())
            expect(brokenInvariants(all)).toEqual([])
            for (let asked = 0; asked < 4; asked += 1) {
              expect(await notLoaded(lived, chance)).toEqual([])
              expect(await decidedOtherwise(lived, chance)).toEqual([])
            }
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
      expect(life.ownWrites).toBeGreaterThan(5)
    },
    PATIENCE_MILLISECONDS,
  )
})
