import { expect, onTestFinished, test } from 'vitest'
import { SiteId, TurnId } from '../../src/domain/ids.ts'
import { brokenInvariants } from '../../src/scheduler/decide/index.ts'
import { instantOfLocal } from '../../src/scheduler/timeline/wall-time.ts'
import { aServiceOverWeeks } from './a-service-over-weeks.ts'
import { aWeeklyHall } from './a-weekly-hall.ts'
import { everything } from './everything.ts'

const zone = 'Europe/London'
const firstDate = '2026-06-01'

test('rooms are to be put back from now on: so is one whose last booking begins within the days looked at and is clear behind them', async () => {
  const service = await aServiceOverWeeks(instantOfLocal(zone, firstDate, '09:00'))
  onTestFinished(service.stop)
  const hall = await aWeeklyHall(service, zone, firstDate)
  const siteId = SiteId.parse(hall.siteId)
  const [rows] = hall.layouts
  const fair = {
    title: 'Fair',
    roomId: rows?.roomId,
    layoutId: rows?.layoutId,
    headcount: 20,
    startsAt: '2026-06-25T10:00',
    endsAt: '2026-07-05T18:00',
  }
  const { body } = await service.post(`${hall.path}/bookings`, fair).expect(201)
  // After a start everything is looked at; that is done with.
  await service.settle()
  const policy = { returnHomeAfterSeconds: 48 * 3600 }
  await service.post(`${hall.path}/policies`, policy).expect(201)
  await service.settle()
  const home = await service.store.turn(siteId, TurnId.parse(`${body.booking.turnId}-home`))
  expect(home?.status).toBe('ready')
  expect(brokenInvariants(await everything(service.store, siteId, service.now()))).toEqual([])
})
