/**
 * Weeks of life at a hall, drawn by lot from a seed: people book, hold, change their minds, stay longer, do not turn up;
 * rooms close, pieces break, the policy changes; and the service does between requests what it does by itself.
 */
import { SiteId } from '../../src/domain/ids.ts'
import { instantPlusSeconds } from '../../src/domain/instant.ts'
import type { LocalDate } from '../../src/domain/units.ts'
import { dateAfter, instantOfLocal } from '../../src/scheduler/timeline/wall-time.ts'
import type { Life, WeeksOfLife } from './a-life.ts'
import { aServiceOverWeeks, QUIET_SECONDS } from './a-service-over-weeks.ts'
import { aWeeklyHall } from './a-weekly-hall.ts'
import { happen } from './happen.ts'
import { type Chances, chances } from './wishes.ts'

/**
 * @param eachDay  at the end of each day, when the service has nothing more to do
 * @param atFirst  before anybody else has booked
 * @param atLast   before the service is stopped
 */
export async function liveThrough(
  weeks: WeeksOfLife,
  {
    atFirst,
    eachDay,
    atLast,
  }: Readonly<Record<'atFirst' | 'eachDay' | 'atLast', (life: Life) => Promise<void>>>,
): Promise<Life> {
  const { zone, firstDate, days, seed } = weeks
  const service = await aServiceOverWeeks(instantOfLocal(zone, firstDate, '06:00'))
  try {
    const hall = await aWeeklyHall(service, zone, firstDate)
    const life: Life = {
      ...weeks,
      service,
      hall,
      siteId: SiteId.parse(hall.siteId),
      bookings: [],
      links: [],
      endable: [],
      daysOff: new Map(),
      answers: new Map(),
      ownWrites: 0,
    }
    const chance = chances(seed)
    await atFirst(life)
    for (let day = 0; day < days; day += 1) {
      await liveOneDay(life, dateAfter(firstDate, day), chance)
      await eachDay(life)
    }
    await atLast(life)
    return life
  } finally {
    await service.stop()
  }
}

/** So many things happen on a day, at moments from 07:00 to 22:00. */
const HAPPENINGS_A_DAY = 12

async function liveOneDay(life: Life, date: LocalDate, chance: Chances): Promise<void> {
  const { service, zone } = life
  const morning = instantOfLocal(zone, date, '07:00')
  const minutes = Array.from({ length: HAPPENINGS_A_DAY }, () => chance.below(15 * 60)).sort((a, b) => a - b)
  for (const minute of minutes) {
    service.moveClock(instantPlusSeconds(morning, minute * 60))
    await happen(life, date, chance)
    if (chance.below(3) === 0) await settle(life)
  }
  service.moveClock(instantOfLocal(zone, date, '23:30'))
  await settle(life)
}

/** Until the service has nothing more to do, once nobody has written for a while. */
async function settle(life: Life): Promise<void> {
  const { service } = life
  life.ownWrites += await service.settle()
  service.moveClock(instantPlusSeconds(service.now(), QUIET_SECONDS))
  life.ownWrites += await service.settle()
}
