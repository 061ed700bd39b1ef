import type { Response } from 'supertest'
import { describe, expect, test } from 'vitest'
import { Instant } from '../../src/domain/instant.ts'
import { keeperCalled } from './a-keeper.ts'
import { aService, idOf, type Service } from './a-service.ts'
import { type ASite, aDinner, aGamesNight, aSite } from './a-site.ts'

/** Of a dinner with doors at 16:30, from 17:00 to 20:00, clear at 20:45 on Saturday 28 November 2026. */
const ushers = { what: 'ushers', fromAt: '2026-11-28T16:15', toAt: '2026-11-28T20:30', hands: 2 }
const tablesUp = { milestone: 'tables-up', byAt: '2026-11-28T15:00' }
const floorClear = { milestone: 'floor-clear', byAt: '2026-11-28T22:00' }

const ask = (service: Service, site: ASite, fields: object) =>
  service.post(`${site.path}/bookings`, { ...aDinner(site), ...fields })

/** Somebody comes after it, for whom the room is turned: so what is to be after clear is somebody's work. */
const followed = (service: Service, site: ASite) =>
  service
    .post(`${site.path}/bookings`, {
      ...aGamesNight(site),
      title: 'Monday games',
      startsAt: '2026-11-30T19:00',
      endsAt: '2026-11-30T20:00',
    })
    .expect(201)

const worship = (site: ASite) => ({
  title: 'Evening prayer',
  roomId: site.upperRoomId,
  layoutId: site.worshipId,
  headcount: 40,
  startsAt: '2026-11-26T18:00',
  endsAt: '2026-11-26T19:00',
})

/** Pointers and messages of a refused input. */
const faultsOf = ({ status, body }: Response): [string, string][] => {
  expect(status).toBe(422)
  return body.errors.map(({ at, message }: { at: string; message: string }) => [at, message])
}

describe('what a booking asks for beside its room and time', () => {
  test('is answered and read as it was asked, with moments in the zone of the site', async () => {
    const service = await aService()
    const site = await aSite(service)
    const asked = {
      priority: 3,
      quietNeeded: true,
      crewDemands: [{ ...ushers, fromAt: '2026-11-28T22:15:00Z' }],
      milestones: [tablesUp, floorClear],
      ownHelp: { hands: 6, seconds: 900 },
    }
    await followed(service, site)
    const { booking } = (await ask(service, site, asked).expect(201)).body
    expect(booking).toMatchObject({
      priority: 3,
      quietNeeded: true,
      crewDemands: [
        {
          what: 'ushers',
          fromAt: '2026-11-28T16:15:00-06:00',
          toAt: '2026-11-28T20:30:00-06:00',
          hands: 2,
          skill: null,
        },
      ],
      milestones: [
        { milestone: 'tables-up', byAt: '2026-11-28T15:00:00-06:00' },
        { milestone: 'floor-clear', byAt: '2026-11-28T22:00:00-06:00' },
      ],
      ownHelp: { hands: 6, seconds: 900 },
    })
    expect((await service.get(`${site.path}/bookings/${booking.id}`)).body).toEqual(booking)
  })

  test('is nothing where it is left out, but a service needs quiet', async () => {
    const service = await aService()
    const site = await aSite(service)
    const dinner = (await ask(service, site, {}).expect(201)).body.booking
    expect(dinner).toMatchObject({
      status: 'CONFIRMED',
      holdExpiresAt: null,
      linkId: null,
      priority: 0,
      quietNeeded: false,
      crewDemands: [],
      milestones: [],
      ownHelp: null,
      riskAccepted: null,
    })
    const prayer = (await service.post(`${site.path}/bookings`, worship(site)).expect(201)).body.booking
    expect(prayer.quietNeeded).toBe(true)
    const aloud = { ...worship(site), startsAt: '2026-11-27T18:00', endsAt: '2026-11-27T19:00' }
    const singing = await service.post(`${site.path}/bookings`, { ...aloud, quietNeeded: false }).expect(201)
    expect(singing.body.booking.quietNeeded).toBe(false)
  })

  test('is changed where it is named, and put back to nothing by an empty list or null', async () => {
    const service = await aService()
    const site = await aSite(service)
    const asked = { crewDemands: [ushers], milestones: [tablesUp], ownHelp: { hands: 4, seconds: 600 } }
    const id = idOf(await ask(service, site, asked))
    const change = async (version: number, patch: object) =>
      (await service.patch(`${site.path}/bookings/${id}`, patch).set('If-Match', `"${version}"`).expect(200))
        .body.booking
    const higher = await change(1, { priority: 9, quietNeeded: true })
    expect(higher).toMatchObject({ priority: 9, quietNeeded: true, ownHelp: { hands: 4, seconds: 600 } })
    expect(higher.crewDemands).toHaveLength(1)
    const without = await change(2, { crewDemands: [], ownHelp: null })
    expect(without).toMatchObject({ priority: 9, crewDemands: [], ownHelp: null })
    expect(without.milestones).toEqual(higher.milestones)
  })
})

describe('crew is asked for', () => {
  const crew = (what: string, fields: object, faults: [string, string][]) => ({ what, fields, faults })
  const cases = [
    crew('that is gone when it comes', { toAt: '2026-11-28T16:15' }, [
      ['toAt', 'it must end after it begins'],
    ]),
    crew('for longer than a day', { fromAt: '2026-11-27T20:29' }, [
      ['toAt', 'it may last 24 h; make several of it'],
    ]),
    crew('from earlier than 48 h before doors', { fromAt: '2026-11-26T16:29', toAt: '2026-11-26T17:00' }, [
      ['fromAt', 'crew is asked for from 48 h before doors at the earliest'],
    ]),
    crew('until later than 24 h after clear', { fromAt: '2026-11-29T20:00', toAt: '2026-11-29T20:46' }, [
      ['toAt', 'crew is asked for until 24 h after clear at the latest'],
    ]),
    crew('of nobody', { hands: 0 }, [['hands', 'must be 1 or more']]),
    crew('of more than twenty', { hands: 21 }, [['hands', 'must be at most 20']]),
    crew('for what nobody says', { what: ' ' }, [['what', 'must not be empty']]),
    crew('with a skill that is no name of one', { skill: 'First Aid' }, [
      ['skill', 'expected lower-case letters, digits and hyphens'],
    ]),
    crew('with a field nobody knows', { colour: 'red' }, [['colour', 'no such field here']]),
    crew('at a time that does not exist', { fromAt: '2026-11-28T25:00' }, [
      ['fromAt', 'there is no such date or time of day: 2026-11-28T25:00'],
    ]),
  ]
  test.for(cases)('$what: it says where and what would be right', async ({ fields, faults }) => {
    const service = await aService()
    const site = await aSite(service)
    const before = await service.traces(site.siteId)
    const answer = await ask(service, site, { crewDemands: [ushers, { ...ushers, ...fields }] })
    expect(faultsOf(answer)).toEqual(faults.map(([name, message]) => [`/crewDemands/1/${name}`, message]))
    expect(await service.traces(site.siteId)).toEqual(before)
  })

  test('at the very bounds: from 48 h before doors, for 24 h, until 24 h after clear', async () => {
    const service = await aService()
    const site = await aSite(service)
    const early = { ...ushers, what: 'cooks', fromAt: '2026-11-26T16:30', toAt: '2026-11-27T16:30' }
    const late = { ...ushers, what: 'washing up', fromAt: '2026-11-28T20:45', toAt: '2026-11-29T20:45' }
    const asked = { ...aDinner(site), crewDemands: [early, late] }
    await service.post(`${site.path}/bookings?dryRun=true`, asked).expect(200)
  })

  test('twenty times at most', async () => {
    const service = await aService()
    const site = await aSite(service)
    const answer = await ask(service, site, { crewDemands: Array(21).fill(ushers) })
    expect(faultsOf(answer)).toEqual([['/crewDemands', 'list at most 20']])
  })
})

describe('a milestone is asked for', () => {
  const milestone = (what: string, milestones: object[], at: string, message: string) => ({
    what,
    milestones,
    at,
    message,
  })
  const cases = [
    milestone(
      'while guests are in the room',
      [{ ...tablesUp, byAt: '2026-11-28T16:31' }],
      '/milestones/0/byAt',
      'must be at or before doors, or at or after clear',
    ),
    milestone(
      'more than 48 h before doors',
      [floorClear, { ...tablesUp, byAt: '2026-11-26T16:29' }],
      '/milestones/1/byAt',
      'may be 48 h before doors at most',
    ),
    milestone(
      'more than 48 h after clear',
      [{ ...floorClear, byAt: '2026-11-30T20:46' }],
      '/milestones/0/byAt',
      'may be 48 h after clear at most',
    ),
    milestone(
      'twice before doors',
      [tablesUp, floorClear, { ...tablesUp, byAt: '2026-11-28T14:00' }],
      '/milestones/2/milestone',
      'tables-up is asked for twice before doors; ask for it once',
    ),
    milestone(
      'twice after clear',
      [floorClear, { ...floorClear, byAt: '2026-11-28T23:00' }],
      '/milestones/1/milestone',
      'floor-clear is asked for twice after clear; ask for it once',
    ),
    milestone(
      'that there is not',
      [{ ...tablesUp, milestone: 'soup-hot' }],
      '/milestones/0/milestone',
      'is not one of "floor-clear", "tables-up", "seats-up", "devices-ready", "sound-checked"',
    ),
    milestone(
      'on a day without a time',
      [{ ...tablesUp, byAt: '2026-11-28' }],
      '/milestones/0/byAt',
      'expected a date and time such as 2026-11-28T17:00 or 2026-11-28T17:00:00-06:00',
    ),
  ]
  test.for(cases)('$what: it says where and what would be right', async ({ milestones, at, message }) => {
    const service = await aService()
    const site = await aSite(service)
    expect(faultsOf(await ask(service, site, { milestones }))).toEqual([[at, message]])
  })

  test('by doors, by clear, and the same once on each side', async () => {
    const service = await aService()
    const site = await aSite(service)
    const milestones = [
      { ...tablesUp, byAt: '2026-11-28T16:30' },
      { milestone: 'floor-clear', byAt: '2026-11-28T15:00' },
      floorClear,
    ]
    await followed(service, site)
    const { booking } = (await ask(service, site, { milestones }).expect(201)).body
    expect(booking.milestones).toHaveLength(3)
  })
})

test('a milestone after clear is refused where nobody turns the room after it, and it is said what to do', async () => {
  const service = await aService()
  const site = await aSite(service)
  expect(faultsOf(await ask(service, site, { milestones: [floorClear] }))).toEqual([
    [
      '/milestones/0/byAt',
      'nobody turns the room after it is clear at Sat 28 Nov 20:45, so nobody would do this; book first what comes next, let the policy put the room back into its home layout, or leave it out',
    ],
  ])
  await followed(service, site)
  await ask(service, site, { milestones: [floorClear] }).expect(201)
})

describe('a group helps', () => {
  const cases: { what: string; ownHelp: object; at: string; message: string }[] = [
    {
      what: 'with eleven hands',
      ownHelp: { hands: 11, seconds: 600 },
      at: 'hands',
      message: 'must be at most 10',
    },
    { what: 'with none', ownHelp: { hands: 0, seconds: 600 }, at: 'hands', message: 'must be 1 or more' },
    {
      what: 'for less than 5 min',
      ownHelp: { hands: 6, seconds: 299 },
      at: 'seconds',
      message: 'must be 300 or more',
    },
    {
      what: 'for more than 20 min',
      ownHelp: { hands: 6, seconds: 1_201 },
      at: 'seconds',
      message: 'must be at most 1200',
    },
    {
      what: 'for how long nobody says',
      ownHelp: { hands: 6 },
      at: 'seconds',
      message: 'is missing; it must be a whole number',
    },
  ]
  test.for(cases)('$what: it is refused', async ({ ownHelp, at, message }) => {
    const service = await aService()
    const site = await aSite(service)
    expect(faultsOf(await ask(service, site, { ownHelp }))).toEqual([[`/ownHelp/${at}`, message]])
  })

  test('a priority is a whole number from 0 to 9', async () => {
    const service = await aService()
    const site = await aSite(service)
    expect(faultsOf(await ask(service, site, { priority: 10 }))).toEqual([['/priority', 'must be at most 9']])
    expect(faultsOf(await ask(service, site, { priority: -1 }))).toEqual([['/priority', 'must be 0 or more']])
  })
})

describe('when a booking moves', () => {
  const asked = { crewDemands: [ushers], milestones: [tablesUp, floorClear] }
  const changing = async (patch: object) => {
    const service = await aService()
    const site = await aSite(service)
    await followed(service, site)
    const id = idOf(await ask(service, site, asked))
    return service.patch(`${site.path}/bookings/${id}`, patch).set('If-Match', '"1"')
  }

  test('as a whole, what it asks for moves along', async () => {
    const { body } = await changing({ startsAt: '2026-11-29T16:00', endsAt: '2026-11-29T19:00' })
    expect(body.booking).toMatchObject({
      crewDemands: [{ fromAt: '2026-11-29T15:15:00-06:00', toAt: '2026-11-29T19:30:00-06:00' }],
      milestones: [{ byAt: '2026-11-29T14:00:00-06:00' }, { byAt: '2026-11-29T21:00:00-06:00' }],
    })
  })

  test('at its end only, what lies after the end moves with it, and the rest stays', async () => {
    const { body } = await changing({ endsAt: '2026-11-28T20:40' })
    expect(body.booking).toMatchObject({
      clearAt: '2026-11-28T21:25:00-06:00',
      crewDemands: [{ fromAt: '2026-11-28T16:15:00-06:00', toAt: '2026-11-28T21:10:00-06:00' }],
      milestones: [{ byAt: '2026-11-28T15:00:00-06:00' }, { byAt: '2026-11-28T22:40:00-06:00' }],
    })
  })

  test('what is named stays as it is named', async () => {
    const move = { startsAt: '2026-11-28T18:00', endsAt: '2026-11-28T21:00' }
    const { body } = await changing({ ...move, milestones: [tablesUp], crewDemands: [ushers] })
    expect(body.booking).toMatchObject({
      crewDemands: [{ fromAt: '2026-11-28T16:15:00-06:00', toAt: '2026-11-28T20:30:00-06:00' }],
      milestones: [{ byAt: '2026-11-28T15:00:00-06:00' }],
    })
  })

  test('parts of a second included, and nothing moves that does not', async () => {
    const service = await aService()
    const site = await aSite(service)
    const exact = {
      doorsAt: '2026-11-28T16:30:00.500',
      crewDemands: [{ ...ushers, fromAt: '2026-11-28T16:15:00.250' }],
    }
    const { booking } = (await ask(service, site, exact).expect(201)).body
    const change = (version: number, patch: object) =>
      service.patch(`${site.path}/bookings/${booking.id}`, patch).set('If-Match', `"${version}"`).expect(200)
    const { body: same } = await change(1, { title: 'Supper' })
    expect(same.booking).toEqual({ ...booking, title: 'Supper', version: 2 })
    const { body: later } = await change(2, { startsAt: '2026-11-28T17:00:00.100' })
    expect(later.booking.doorsAt).toBe('2026-11-28T16:30:00.600-06:00')
    expect(later.booking.crewDemands[0].fromAt).toBe('2026-11-28T16:15:00.350-06:00')
  })

  test('and its doors come too late for what it asks for, that is to be named anew', async () => {
    const answer = await changing({ doorsAt: '2026-11-28T14:59' })
    expect(faultsOf(answer)).toEqual([
      ['/milestones/0/byAt', 'must be at or before doors, or at or after clear'],
    ])
  })
})

describe('a risk is taken', () => {
  /** A seat is brought along for the 121st guest: the layout has 120. */
  const crowd = { headcount: 121, takeRisk: { why: 'They bring a chair.' } }
  const accepted = {
    actorId: 'actor_ada',
    why: 'They bring a chair.',
    acceptedAt: '2026-11-23T09:00:00-06:00',
    reasons: [{ code: 'headcount-over-seats', headcount: 121, seats: 120 }],
  }
  const atRisk = async () => {
    const service = await aService()
    const site = await aSite(service)
    const answer = await ask(service, site, crowd).set(keeperCalled('actor_ada'))
    const path = `${site.path}/bookings/${answer.body.booking?.id}`
    const change = (version: number, patch: object) =>
      service.patch(path, patch).set('If-Match', `"${version}"`).set(keeperCalled('actor_ben'))
    return { service, site, answer, path, change }
  }

  test('by whoever asks: what does not fit is booked, and says who answers for it and why', async () => {
    const { service, answer, path } = await atRisk()
    expect(answer.status).toBe(201)
    expect(answer.body.decision).toMatchObject({
      verdict: 'does-not-fit',
      reasons: [{ code: 'headcount-over-seats', overridable: true }],
    })
    expect(answer.body.booking.riskAccepted).toMatchObject(accepted)
    expect((await service.get(path)).body.riskAccepted).toMatchObject(accepted)
  })

  test('where it fits there is none to take, and none is noted', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { booking, decision } = (await ask(service, site, { takeRisk: crowd.takeRisk }).expect(201)).body
    expect(decision.verdict).toBe('fits')
    expect(booking.riskAccepted).toBeNull()
    expect((await service.get(`${site.path}/bookings/${booking.id}`)).body).toEqual(booking)
  })

  test('but not against what nobody may decide otherwise, and the refusal says against what', async () => {
    const service = await aService()
    const site = await aSite(service)
    await ask(service, site, {}).expect(201)
    const before = await service.traces(site.siteId)
    const answer = await ask(service, site, crowd).expect(409)
    expect(answer.body.type).toBe('/problems/does-not-fit')
    expect(answer.body.detail).toMatch(/ Nobody may take the risk that the room is taken\.$/)
    expect(await service.traces(site.siteId)).toEqual(before)
    const withoutRisk = await ask(service, site, { headcount: 121 }).expect(409)
    expect(withoutRisk.body.detail).not.toContain('Nobody')
  })

  test('and stays taken while only the title changes', async () => {
    const { change } = await atRisk()
    const { booking } = (await change(1, { title: 'Supper' }).expect(200)).body
    expect(booking).toMatchObject({ title: 'Supper', riskAccepted: accepted })
  })

  test('anew for anything else, by whoever changes it', async () => {
    const { change, service, path } = await atRisk()
    await change(1, { headcount: 122 }).expect(409)
    expect((await service.get(path)).body).toMatchObject({ headcount: 121, version: 1 })
    const { booking } = (
      await change(1, { headcount: 122, takeRisk: { why: 'They bring two.' } }).expect(200)
    ).body
    expect(booking.riskAccepted).toMatchObject({ actorId: 'actor_ben', why: 'They bring two.' })
  })

  test('and is over once the booking fits', async () => {
    const { change, service, path } = await atRisk()
    const { booking } = (await change(1, { headcount: 120 }).expect(200)).body
    expect(booking.riskAccepted).toBeNull()
    expect((await service.get(path)).body).toEqual(booking)
  })

  test('with a reason, in one line', async () => {
    const service = await aService()
    const site = await aSite(service)
    expect(faultsOf(await ask(service, site, { takeRisk: {} }))).toEqual([
      ['/takeRisk/why', 'is missing; it must be text'],
    ])
    expect(faultsOf(await ask(service, site, { takeRisk: { why: ' ' } }))).toEqual([
      ['/takeRisk/why', 'must not be empty'],
    ])
  })
})

describe('when the last guest is out later than planned', () => {
  const later = (service: Service, site: ASite, id: string, body: object) =>
    service.post(`${site.path}/bookings/${id}/clear-later`, body)

  test('it is taken, and the answer says what no longer stands', async () => {
    const service = await aService()
    const site = await aSite(service)
    const games = idOf(await service.post(`${site.path}/bookings`, aGamesNight(site)))
    const dinner = idOf(await ask(service, site, {}))
    const answer = await later(service, site, games, { clearAt: '2026-11-28T16:20' }).expect(200)
    expect(answer.body.booking).toMatchObject({ clearAt: '2026-11-28T16:20:00-06:00', version: 2 })
    expect(answer.headers.etag).toBe('"2"')
    expect(answer.body.decision.verdict).toBe('does-not-fit')
    expect((await service.get(`${site.path}/bookings/${games}`)).body).toEqual(answer.body.booking)
    const warned = (await service.get(`${site.path}/warnings`)).body.items
    expect(warned.map((one: { bookingId: string }) => one.bookingId)).toContain(dinner)
    const audit = (await service.get(`${site.path}/audit?limit=200`)).body.items
    expect(audit.at(-1)).toMatchObject({ action: 'clear-later', actorId: 'actor_local' })
  })

  test('beyond doors of the next booking, that is said, and its doors stay', async () => {
    const service = await aService()
    const site = await aSite(service)
    const games = idOf(await service.post(`${site.path}/bookings`, aGamesNight(site)))
    await ask(service, site, {}).expect(201)
    const { booking } = (await later(service, site, games, { clearAt: '2026-11-28T17:15' }).expect(200)).body
    expect(booking).toMatchObject({
      clearAt: '2026-11-28T16:30:00-06:00',
      overrunsUntilAt: '2026-11-28T17:15:00-06:00',
    })
    const path = `${site.path}/bookings/${games}`
    expect((await service.get(path)).body).toEqual(booking)
    const sooner = await later(service, site, games, { clearAt: '2026-11-28T17:00' })
    expect(faultsOf(sooner)).toEqual([
      ['/clearAt', 'must be later than clear as it is planned now, Sat 28 Nov 17:15'],
    ])
    const out = { clearAt: '2026-11-27T22:00' }
    const back = await service.patch(path, out).set('If-Match', '"2"').expect(200)
    expect(back.body.booking).toMatchObject({ clearAt: '2026-11-27T22:00:00-06:00', overrunsUntilAt: null })
  })

  test('while doors are open too', async () => {
    let now = Date.UTC(2026, 10, 23, 15)
    const service = await aService({ clock: () => Instant.parse(now) })
    const site = await aSite(service)
    const dinner = idOf(await ask(service, site, {}))
    now = Date.UTC(2026, 10, 29, 2, 30)
    const answer = await later(service, site, dinner, { clearAt: '2026-11-28T21:30' }).expect(200)
    expect(answer.body.booking.clearAt).toBe('2026-11-28T21:30:00-06:00')
  })

  test('a moment that is not later, or beyond 31 days, is refused', async () => {
    const service = await aService()
    const site = await aSite(service)
    const dinner = idOf(await ask(service, site, {}))
    expect(faultsOf(await later(service, site, dinner, { clearAt: '2026-11-28T20:45' }))).toEqual([
      ['/clearAt', 'must be later than clear as it is planned now, Sat 28 Nov 20:45'],
    ])
    expect(faultsOf(await later(service, site, dinner, { clearAt: '2026-12-29T16:31' }))).toEqual([
      ['/clearAt', 'from doors to clear it may last 31 days; make several bookings'],
    ])
    expect(faultsOf(await later(service, site, dinner, {}))[0]?.[0]).toBe('/clearAt')
  })

  test('a stale version and a cancelled booking are told', async () => {
    const service = await aService()
    const site = await aSite(service)
    const dinner = idOf(await ask(service, site, {}))
    const clearAt = '2026-11-28T21:00'
    await later(service, site, dinner, { clearAt }).set('If-Match', '"7"').expect(412)
    await later(service, site, dinner, { clearAt }).set('If-Match', '"1"').expect(200)
    await service.delete(`${site.path}/bookings/${dinner}`).expect(200)
    const answer = await later(service, site, dinner, { clearAt: '2026-11-28T22:00' }).expect(409)
    expect(answer.body.type).toBe('/problems/already-cancelled')
  })

  test('sent again with the same key, it is done once', async () => {
    const service = await aService()
    const site = await aSite(service)
    const dinner = idOf(await ask(service, site, {}))
    const send = () =>
      later(service, site, dinner, { clearAt: '2026-11-28T21:00' }).set('Idempotency-Key', 'late-1')
    const first = await send().expect(200)
    const before = await service.traces(site.siteId)
    expect((await send().expect(200)).text).toBe(first.text)
    expect(await service.traces(site.siteId)).toEqual(before)
  })
})
