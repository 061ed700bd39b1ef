import { describe, expect, test } from 'vitest'
import { HOLDS_LAPSED_MOST, lapseExpired } from '../../src/api/lapse-holds.ts'
import { SiteId } from '../../src/domain/ids.ts'
import { Instant } from '../../src/domain/instant.ts'
import { Person } from '../../src/domain/person.ts'
import type { Commit, Store } from '../../src/store/store.ts'
import { inProcessDecider } from '../../src/worker/in-process-decider.ts'
import { KEEPER, keeperCalled } from './a-keeper.ts'
import { aService, idOf, NOW, type Service, type ServiceOptions } from './a-service.ts'
import { type ASite, aDinner, aSite } from './a-site.ts'

/** Noon of Wednesday 25 November 2026; the dinner has doors on Saturday at 16:30. */
const untilWednesday = { hold: { expiresAt: '2026-11-25T12:00' } }
const WEDNESDAY_NOON = Instant.parse(Date.UTC(2026, 10, 25, 18))
const SECOND = 1_000

/** A service whose clock is set by hand, with a hall in it. */
async function aHallInTime(options: Omit<ServiceOptions, 'clock'> = {}) {
  let now = NOW
  const service = await aService({ ...options, clock: () => now })
  const site = await aSite(service)
  return {
    service,
    site,
    setClock: (moment: number) => {
      now = Instant.parse(moment)
    },
  }
}

const ask = (service: Service, site: ASite, fields: object = {}) =>
  service.post(`${site.path}/bookings`, { ...aDinner(site), ...fields })
const read = async (service: Service, site: ASite, id: string) =>
  (await service.get(`${site.path}/bookings/${id}`).expect(200)).body
const confirm = (service: Service, site: ASite, id: string) =>
  service.post(`${site.path}/bookings/${id}/confirm`, {})
const auditOf = async (service: Service, site: ASite) =>
  (await service.get(`${site.path}/audit?limit=200`)).body.items

describe('a room is held', () => {
  test('for a while: nobody else gets it, and the answer says until when', async () => {
    const { service, site } = await aHallInTime()
    const answer = await ask(service, site, untilWednesday).expect(201)
    const { booking } = answer.body
    expect(booking).toMatchObject({ status: 'TENTATIVE', holdExpiresAt: '2026-11-25T12:00:00-06:00' })
    expect(answer.body.decision.verdict).toBe('fits')
    expect(await read(service, site, booking.id)).toEqual(booking)
    const other = await ask(service, site, { title: 'Second' }).expect(409)
    expect(other.body.decision.reasons[0]).toMatchObject({ code: 'room-occupied', bookingId: booking.id })
    expect((await auditOf(service, site)).at(-1)).toMatchObject({ action: 'hold' })
  })

  test.for([
    ['that is over already', '2026-11-23T09:00', 'must lie in the future'],
    ['beyond doors', '2026-11-28T16:31', 'must be at or before doors'],
    [
      'at a time in words',
      'soon',
      'expected a date and time such as 2026-11-28T17:00 or 2026-11-28T17:00:00-06:00',
    ],
  ] as const)('but not for a while %s', async ([, expiresAt, message]) => {
    const { service, site } = await aHallInTime()
    const answer = await ask(service, site, { hold: { expiresAt } }).expect(422)
    expect(answer.body.errors).toEqual([{ at: '/hold/expiresAt', in: 'body', message }])
  })

  test('until doors, and for 366 days, but not longer', async () => {
    const { service, site } = await aHallInTime()
    await ask(service, site, { hold: { expiresAt: '2026-11-28T16:30' } }).expect(201)
    const far = { startsAt: '2027-12-18T17:00', endsAt: '2027-12-18T20:00' }
    const tooLong = await ask(service, site, { ...far, hold: { expiresAt: '2027-11-24T09:01' } }).expect(422)
    expect(tooLong.body.errors).toEqual([
      { at: '/hold/expiresAt', in: 'body', message: 'a hold may last 366 days from now' },
    ])
    await ask(service, site, { ...far, hold: { expiresAt: '2027-11-24T09:00' } }).expect(201)
  })

  test('for longer, when its end is changed; the rest stays as it is', async () => {
    const { service, site, setClock } = await aHallInTime()
    const { booking } = (await ask(service, site, untilWednesday)).body
    const path = `${site.path}/bookings/${booking.id}`
    const longer = { hold: { expiresAt: '2026-11-26T12:00' } }
    const changed = (await service.patch(path, longer).set('If-Match', '"1"').expect(200)).body
    expect(changed.booking).toEqual({ ...booking, holdExpiresAt: '2026-11-26T12:00:00-06:00', version: 2 })
    setClock(WEDNESDAY_NOON)
    await ask(service, site, { title: 'Second' }).expect(409)
    expect(await read(service, site, booking.id)).toMatchObject({ status: 'TENTATIVE' })
  })

  test('and moved to before it ends, its end is asked for as well', async () => {
    const { service, site } = await aHallInTime()
    const id = idOf(await ask(service, site, untilWednesday))
    const move = { startsAt: '2026-11-25T10:00', endsAt: '2026-11-25T11:00' }
    const change = (patch: object) =>
      service.patch(`${site.path}/bookings/${id}`, patch).set('If-Match', '"1"')
    const refused = await change(move).expect(422)
    expect(refused.body.errors).toEqual([
      {
        at: '/hold/expiresAt',
        in: 'body',
        message: 'the hold would end after doors; name another end for it as well',
      },
    ])
    await change({ ...move, hold: { expiresAt: '2026-11-25T09:00' } }).expect(200)
  })

  test('but what is firm does not turn into a hold', async () => {
    const { service, site } = await aHallInTime()
    const id = idOf(await ask(service, site))
    const before = await service.traces(site.siteId)
    const answer = await service
      .patch(`${site.path}/bookings/${id}`, untilWednesday)
      .set('If-Match', '"1"')
      .expect(409)
    expect(answer.body).toMatchObject({
      type: '/problems/not-a-hold',
      detail: 'Harvest supper is firm, and is not turned back into a hold. Cancel it and hold the room anew.',
    })
    expect(await service.traces(site.siteId)).toEqual(before)
  })
})

describe('a hold is confirmed', () => {
  test('and is firm from then on: its end no longer matters', async () => {
    const { service, site, setClock } = await aHallInTime()
    const { booking } = (await ask(service, site, untilWednesday)).body
    const answer = await confirm(service, site, booking.id).set(keeperCalled('actor_ada')).expect(200)
    const firm = { ...booking, status: 'CONFIRMED', holdExpiresAt: null, version: 2 }
    expect(answer.body.bookings).toEqual([firm])
    expect(answer.body.decision.verdict).toBe('fits')
    expect(answer.headers.etag).toBe('"2"')
    setClock(WEDNESDAY_NOON)
    await ask(service, site, { title: 'Second' }).expect(409)
    expect(await read(service, site, booking.id)).toEqual(firm)
    expect((await auditOf(service, site)).at(-1)).toMatchObject({ action: 'confirm', actorId: 'actor_ada' })
  })

  test('without any body too', async () => {
    const { service, site } = await aHallInTime()
    const id = idOf(await ask(service, site, untilWednesday))
    const url = `${site.path}/bookings/${id}/confirm`
    const answer = await service.app.inject({
      method: 'POST',
      url,
      headers: { host: 'localhost', ...KEEPER },
    })
    expect(answer.statusCode).toBe(200)
  })

  test('once: sent again with the same key, the first answer comes back; without one, it is firm', async () => {
    const { service, site } = await aHallInTime()
    const id = idOf(await ask(service, site, untilWednesday))
    const send = () => confirm(service, site, id).set('Idempotency-Key', 'yes-1')
    const first = await send().expect(200)
    const before = await service.traces(site.siteId)
    const second = await send().expect(200)
    expect(second.text).toBe(first.text)
    expect(second.headers['idempotent-replayed']).toBe('true')
    const again = await confirm(service, site, id).expect(409)
    expect(again.body.type).toBe('/problems/not-a-hold')
    expect(await service.traces(site.siteId)).toEqual(before)
  })

  test('at the version that was read, where one is named', async () => {
    const { service, site } = await aHallInTime()
    const id = idOf(await ask(service, site, untilWednesday))
    await confirm(service, site, id).set('If-Match', '"2"').expect(412)
    await confirm(service, site, id).set('If-Match', '"1"').expect(200)
  })

  test('only where there is one, and with nothing in the body', async () => {
    const { service, site } = await aHallInTime()
    await confirm(service, site, 'booking_none').expect(404)
    const id = idOf(await ask(service, site, untilWednesday))
    const asked = await service.post(`${site.path}/bookings/${id}/confirm`, { really: true }).expect(422)
    expect(asked.body.errors).toEqual([{ at: '/really', in: 'body', message: 'no such field here' }])
    await service.delete(`${site.path}/bookings/${id}`).expect(200)
    const cancelled = await confirm(service, site, id).expect(409)
    expect(cancelled.body.type).toBe('/problems/already-cancelled')
  })
})

describe('when a hold is over', () => {
  test('whoever asks next gets the room, and the audit says what happened to the hold', async () => {
    const { service, site, setClock } = await aHallInTime()
    const held = idOf(await ask(service, site, untilWednesday))
    setClock(WEDNESDAY_NOON)
    await ask(service, site, { title: 'Second' }).set(keeperCalled('actor_ben')).expect(201)
    expect(await read(service, site, held)).toMatchObject({ status: 'CANCELLED', version: 2 })
    const [lapse, book] = (await auditOf(service, site)).slice(-2)
    expect(lapse).toMatchObject({
      action: 'lapse',
      actorId: 'actor_service',
      reason: 'the hold is over',
      writtenAt: '2026-11-25T12:00:00-06:00',
    })
    expect(book).toMatchObject({ action: 'book', actorId: 'actor_ben' })
  })

  test('not a moment earlier', async () => {
    const { service, site, setClock } = await aHallInTime()
    const held = idOf(await ask(service, site, untilWednesday))
    setClock(WEDNESDAY_NOON - 1)
    await ask(service, site, { title: 'Second' }).expect(409)
    await confirm(service, site, held).expect(200)
  })

  test('it cannot be confirmed or changed any more, and the answer says what to do', async () => {
    const { service, site, setClock } = await aHallInTime()
    const held = idOf(await ask(service, site, untilWednesday))
    setClock(WEDNESDAY_NOON + 30 * SECOND)
    const answer = await confirm(service, site, held).set('If-Match', '"1"').expect(409)
    expect(answer.body).toMatchObject({
      type: '/problems/hold-is-over',
      title: 'The hold is over',
      retryHelps: false,
      detail:
        'The hold of Harvest supper ended Wed 25 Nov 12:00 without being confirmed: others may have the room by now. ' +
        'Ask for the booking anew.',
    })
    const path = `${site.path}/bookings/${held}`
    const patched = await service.patch(path, { title: 'Supper' }).set('If-Match', '"1"').expect(409)
    expect(patched.body.type).toBe('/problems/hold-is-over')
    const deleted = await service.delete(path).expect(409)
    expect(deleted.body.type).toBe('/problems/hold-is-over')
  })

  test('a dry run does not see it in the way either', async () => {
    const { service, site, setClock } = await aHallInTime()
    await ask(service, site, untilWednesday).expect(201)
    setClock(WEDNESDAY_NOON)
    const dry = await service.post(`${site.path}/bookings?dryRun=true`, aDinner(site)).expect(200)
    expect(dry.body.decision).toMatchObject({ verdict: 'fits', reasons: [] })
  })

  test('a hold that somebody has cancelled before is cancelled, not over', async () => {
    const { service, site, setClock } = await aHallInTime()
    const held = idOf(await ask(service, site, untilWednesday))
    await service.delete(`${site.path}/bookings/${held}`).expect(200)
    setClock(WEDNESDAY_NOON)
    const answer = await confirm(service, site, held).expect(409)
    expect(answer.body.type).toBe('/problems/already-cancelled')
  })
})

/** Evenings in the upper room, one a day from Tuesday on. */
const evening = (site: ASite, day: number) => {
  const date = new Date(Date.UTC(2026, 10, 24 + day)).toISOString().slice(0, 10)
  return {
    title: `Evening ${day}`,
    roomId: site.upperRoomId,
    layoutId: site.worshipId,
    headcount: 20,
    startsAt: `${date}T18:00`,
    endsAt: `${date}T19:00`,
    hold: { expiresAt: '2026-11-24T12:00' },
  }
}
const TUESDAY_NOON = Instant.parse(Date.UTC(2026, 10, 24, 18))

describe('when many holds are over at once', () => {
  const manyHolds = async (count: number) => {
    const hall = await aHallInTime()
    const { service, site } = hall
    for (let day = 0; day < count; day += 1)
      await service.post(`${site.path}/bookings`, evening(site, day)).expect(201)
    hall.setClock(TUESDAY_NOON)
    return hall
  }
  const statuses = async (service: Service, site: ASite) =>
    (await service.get(`${site.path}/bookings?limit=200`)).body.items.map(
      ({ status }: { status: string }) => status,
    )

  test('they are given up so many at a time, and then the rest', async () => {
    const { service, site } = await manyHolds(HOLDS_LAPSED_MOST + 1)
    const parts = {
      store: service.store,
      decider: inProcessDecider(service.store),
      clock: () => TUESDAY_NOON,
    }
    const siteId = SiteId.parse(site.siteId)
    expect(await lapseExpired(parts, siteId)).toBe(HOLDS_LAPSED_MOST)
    expect((await statuses(service, site)).filter((status: string) => status === 'TENTATIVE')).toEqual([
      'TENTATIVE',
    ])
    expect(await lapseExpired(parts, siteId)).toBe(1)
    expect(await lapseExpired(parts, siteId)).toBe(0)
    expect(new Set(await statuses(service, site))).toEqual(new Set(['CANCELLED']))
  })

  test('none of them is in the way of the next request', async () => {
    const { service, site } = await manyHolds(HOLDS_LAPSED_MOST + 2)
    const { hold: _hold, ...last } = evening(site, HOLDS_LAPSED_MOST + 1)
    await service.post(`${site.path}/bookings`, last).expect(201)
    expect((await statuses(service, site)).filter((status: string) => status !== 'CANCELLED')).toEqual([
      'CONFIRMED',
    ])
  })

  test('those of another site are left to its own requests', async () => {
    const { service, site } = await manyHolds(2)
    const other = await aSite(service)
    await ask(service, other).expect(201)
    expect(await statuses(service, site)).toEqual(['TENTATIVE', 'TENTATIVE'])
  })
})

describe('while a hold is given up', () => {
  test('somebody else may be faster: it is looked at anew, and the request is answered', async () => {
    let outrun = false
    const faster = (store: Store): Store => ({
      ...store,
      commit: async (commit: Commit) => {
        if (commit.action === 'lapse' && !outrun) {
          outrun = true
          const { siteId, actorId, at } = commit
          const row = Person.parse({ id: 'person_newcomer', siteId, adult: true, skills: [] })
          const setup = [{ kind: 'person', before: null, after: row, retire: false } as const]
          const rest = { siteId, actorId, at, reason: null, planningVersionExpected: null }
          await store.commit({ ...rest, action: 'add-person', setup })
        }
        return store.commit(commit)
      },
    })
    const { service, site, setClock } = await aHallInTime({ store: faster })
    const held = idOf(await ask(service, site, untilWednesday))
    setClock(WEDNESDAY_NOON)
    await ask(service, site, { title: 'Second' }).expect(201)
    expect(outrun).toBe(true)
    expect(await read(service, site, held)).toMatchObject({ status: 'CANCELLED' })
  })

  test('one that cannot be decided on keeps nothing else from being booked', async () => {
    const stubborn = (store: Store) => {
      const decider = inProcessDecider(store)
      const problems = [{ code: 'already-begun', at: '', message: 'it has begun' }] as const
      return {
        ...decider,
        decide: async (request: Parameters<typeof decider.decide>[0]) =>
          request.operations.some(({ kind }) => kind === 'lapse')
            ? ({ kind: 'problems', problems } as const)
            : decider.decide(request),
      }
    }
    const { service, site, setClock } = await aHallInTime({ decider: stubborn })
    const held = idOf(await ask(service, site, untilWednesday))
    setClock(WEDNESDAY_NOON)
    const { hold: _hold, ...elsewhere } = evening(site, 3)
    await service.post(`${site.path}/bookings`, elsewhere).expect(201)
    expect(await read(service, site, held)).toMatchObject({ status: 'TENTATIVE' })
  })
})
