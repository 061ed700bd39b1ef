import { describe, expect, test } from 'vitest'
import { aService, idOf } from './a-service.ts'
import { aDinner, aGamesNight, aSite } from './a-site.ts'

describe('a booking is asked for', () => {
  test('a dinner after a games night is taken, and the answer carries the turn between them', async () => {
    const service = await aService()
    const site = await aSite(service)
    const games = idOf(await service.post(`${site.path}/bookings`, aGamesNight(site)))
    const answer = await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)
    const { booking, decision } = answer.body
    expect(answer.headers.location).toBe(`${site.path}/bookings/${booking.id}`)
    expect(answer.headers.etag).toBe('"1"')
    expect(booking).toMatchObject({
      title: 'Harvest supper',
      status: 'CONFIRMED',
      version: 1,
      foodServed: true,
    })
    expect(decision).toMatchObject({ verdict: 'fits', reasons: [], alternatives: [] })
    expect(decision.before).toMatchObject({
      turnId: booking.turnId,
      fromLayoutIds: [site.gamesId],
      toLayoutId: site.banquetId,
      releaseAt: '2026-11-27T21:15:00-06:00',
      dueAt: booking.doorsAt,
    })
    expect(decision.before.neededSeconds).toBeLessThanOrEqual(decision.before.staffedWindowSeconds)
    const turn = (await service.get(`${site.path}/turns/${booking.turnId}`)).body
    expect(turn.predecessorBookingIds).toEqual([games])
  })

  test('doors and clear come from the policy for the kind of layout, and are shown', async () => {
    const service = await aService()
    const site = await aSite(service)
    const dinner = (await service.post(`${site.path}/bookings`, aDinner(site))).body.booking
    expect(dinner.doorsAt).toBe('2026-11-28T16:30:00-06:00')
    expect(dinner.clearAt).toBe('2026-11-28T20:45:00-06:00')
    const games = (await service.post(`${site.path}/bookings`, aGamesNight(site))).body.booking
    expect(games).toMatchObject({
      doorsAt: '2026-11-27T18:20:00-06:00',
      clearAt: '2026-11-27T21:15:00-06:00',
      foodServed: false,
      floorWet: false,
    })
  })

  test('doors and clear that were given are kept', async () => {
    const service = await aService()
    const site = await aSite(service)
    const given = { doorsAt: '2026-11-28T17:00', clearAt: '2026-11-28T20:00:00-06:00', foodServed: false }
    const { booking } = (await service.post(`${site.path}/bookings`, { ...aDinner(site), ...given })).body
    expect(booking).toMatchObject({
      doorsAt: '2026-11-28T17:00:00-06:00',
      clearAt: '2026-11-28T20:00:00-06:00',
      foodServed: false,
    })
  })

  test('one that overlaps another is refused with the decision, and nothing is written', async () => {
    const service = await aService()
    const site = await aSite(service)
    const dinner = idOf(await service.post(`${site.path}/bookings`, aDinner(site)))
    const before = await service.traces(site.siteId)
    const answer = await service
      .post(`${site.path}/bookings`, { ...aDinner(site), title: 'Second' })
      .expect(409)
    expect(answer.headers['content-type']).toContain('application/problem+json')
    expect(answer.body).toMatchObject({ type: '/problems/does-not-fit', status: 409, retryHelps: false })
    expect(answer.body.decision.verdict).toBe('does-not-fit')
    const [reason] = answer.body.decision.reasons
    expect(reason).toMatchObject({ code: 'room-occupied', bookingId: dinner, overridable: false })
    expect(reason.fromAt).toBe('2026-11-28T16:30:00-06:00')
    expect(answer.body.detail).toContain(reason.message)
    expect(answer.body.decision).not.toHaveProperty('changes')
    expect(await service.traces(site.siteId)).toEqual(before)
  })

  test('one whose reset cannot fit the gap is refused with the minutes short and the earliest doors that work', async () => {
    const service = await aService()
    const site = await aSite(service, { hands: 2 })
    await service.post(`${site.path}/bookings`, aGamesNight(site)).expect(201)
    const late = { startsAt: '2026-11-27T21:40', endsAt: '2026-11-27T22:10', doorsAt: '2026-11-27T21:25' }
    const clear = { clearAt: '2026-11-27T22:15' }
    const answer = await service
      .post(`${site.path}/bookings`, { ...aDinner(site), ...late, ...clear })
      .expect(409)
    const [reason] = answer.body.decision.reasons
    expect(['hands-short', 'turn-before-too-long']).toContain(reason.code)
    expect(reason.availableSeconds).toBe(600)
    expect(reason.shortSeconds).toBeGreaterThan(0)
    const [other] = answer.body.decision.alternatives
    const { startsAt, endsAt, doorsAt, clearAt } = other
    const taken = { ...aDinner(site), startsAt, endsAt, doorsAt, clearAt }
    await service.post(`${site.path}/bookings`, taken).expect(201)
  })

  test('of two that cannot both be, sent at once, exactly one wins', async () => {
    const service = await aService()
    const site = await aSite(service)
    const asked = ['One', 'Two', 'Three'].map((title) => ({ ...aDinner(site), title }))
    const answers = await Promise.all(asked.map((body) => service.post(`${site.path}/bookings`, body)))
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409])
    expect((await service.get(`${site.path}/bookings`)).body.items).toHaveLength(1)
  })

  test('a dry run answers the decision alone and writes nothing, be it yes or no', async () => {
    const service = await aService()
    const site = await aSite(service)
    const before = await service.traces(site.siteId)
    const yes = await service.post(`${site.path}/bookings?dryRun=true`, aDinner(site)).expect(200)
    expect(yes.body.decision.verdict).toBe('fits')
    expect(Object.keys(yes.body)).toEqual(['decision'])
    const no = await service.post(`${site.path}/bookings?dryRun=true`, { ...aDinner(site), headcount: 500 })
    expect(no.status).toBe(200)
    expect(no.body.decision.reasons[0].code).toBe('headcount-over-posted-limit')
    expect(await service.traces(site.siteId)).toEqual(before)
  })
})

describe('a booking is read and listed', () => {
  test('it is read as it was answered, with its version as ETag', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { booking } = (await service.post(`${site.path}/bookings`, aDinner(site))).body
    const read = await service.get(`${site.path}/bookings/${booking.id}`).expect(200)
    expect(read.body).toEqual(booking)
    expect(read.headers.etag).toBe('"1"')
  })

  test('a list holds those that touch the span, in one room if asked, by doors', async () => {
    const service = await aService()
    const site = await aSite(service)
    const dinner = idOf(await service.post(`${site.path}/bookings`, aDinner(site)))
    const games = idOf(await service.post(`${site.path}/bookings`, aGamesNight(site)))
    const ids = async (query: string) =>
      (await service.get(`${site.path}/bookings?${query}`).expect(200)).body.items.map(
        ({ id }: { id: string }) => id,
      )
    expect(await ids('')).toEqual([games, dinner])
    expect(await ids('from=2026-11-28')).toEqual([dinner])
    expect(await ids('to=2026-11-28')).toEqual([games])
    expect(await ids('from=2026-11-27T21:15&to=2026-11-28T16:30')).toEqual([])
    expect(await ids('from=2026-11-27T21:14:00-06:00&to=2026-11-28T16:31')).toEqual([games, dinner])
    expect(await ids('from=2026-11-28T03:14:00+00:00&to=2026-11-28T16:31')).toEqual([games, dinner])
    expect(await ids(`room=${site.upperRoomId}`)).toEqual([])
    expect(await ids(`room=${site.hallId}&limit=1`)).toEqual([games])
  })

  test('how it stands today is told from stored judgements: its own turn and the next one', async () => {
    const service = await aService()
    const site = await aSite(service)
    const games = idOf(await service.post(`${site.path}/bookings`, aGamesNight(site)))
    const dinner = (await service.post(`${site.path}/bookings`, aDinner(site))).body
    const today = (await service.get(`${site.path}/bookings/${games}/decision`).expect(200)).body
    expect(today).toMatchObject({ verdict: 'fits', reasons: [], affected: [], alternatives: [] })
    expect(today.after).toEqual(dinner.decision.before)
    const own = (await service.get(`${site.path}/bookings/${dinner.booking.id}/decision`)).body
    expect(own.before).toEqual(dinner.decision.before)
    expect(own.after).toBeNull()
  })
})

describe('a booking is changed', () => {
  test('what is named changes, the rest stays, and it is decided on anew', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { booking } = (await service.post(`${site.path}/bookings`, aDinner(site))).body
    const path = `${site.path}/bookings/${booking.id}`
    const answer = await service
      .patch(path, { title: 'Supper', headcount: 110 })
      .set('If-Match', '"1"')
      .expect(200)
    expect(answer.headers.etag).toBe('"2"')
    expect(answer.body.booking).toEqual({ ...booking, title: 'Supper', headcount: 110, version: 2 })
    expect(answer.body.decision.verdict).toBe('fits')
    expect((await service.get(path)).body).toEqual(answer.body.booking)
  })

  test('doors given as null follow the policy of the new start', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { booking } = (await service.post(`${site.path}/bookings`, aDinner(site))).body
    const patch = { startsAt: '2026-11-28T18:00', doorsAt: null }
    const answer = await service
      .patch(`${site.path}/bookings/${booking.id}`, patch)
      .set('If-Match', '"1"')
      .expect(200)
    expect(answer.body.booking.doorsAt).toBe('2026-11-28T17:30:00-06:00')
    expect(answer.body.booking.clearAt).toBe(booking.clearAt)
  })

  test('doors that are not named go with the start, and clear with the end', async () => {
    const service = await aService()
    const site = await aSite(service)
    const given = { doorsAt: '2026-11-28T16:45', clearAt: '2026-11-28T20:20' }
    const { booking } = (await service.post(`${site.path}/bookings`, { ...aDinner(site), ...given })).body
    const path = `${site.path}/bookings/${booking.id}`
    const change = async (version: number, patch: object) =>
      (await service.patch(path, patch).set('If-Match', `"${version}"`).expect(200)).body.booking
    const moved = await change(1, { startsAt: '2026-11-28T18:00', endsAt: '2026-11-28T21:00' })
    expect(moved).toMatchObject({
      doorsAt: '2026-11-28T17:45:00-06:00',
      clearAt: '2026-11-28T21:20:00-06:00',
    })
    const longer = await change(2, { endsAt: '2026-11-28T21:30' })
    expect(longer).toMatchObject({ doorsAt: moved.doorsAt, clearAt: '2026-11-28T21:50:00-06:00' })
    const named = await change(3, { startsAt: '2026-11-28T18:10', doorsAt: '2026-11-28T18:00' })
    expect(named).toMatchObject({ doorsAt: '2026-11-28T18:00:00-06:00', clearAt: longer.clearAt })
  })

  test('a change without If-Match is asked for one; a stale one is told so; neither writes', async () => {
    const service = await aService()
    const site = await aSite(service)
    const id = idOf(await service.post(`${site.path}/bookings`, aDinner(site)))
    const path = `${site.path}/bookings/${id}`
    await service.patch(path, { title: 'Supper' }).set('If-Match', '"1"').expect(200)
    const before = await service.traces(site.siteId)
    const without = await service.patch(path, { title: 'Lost' }).expect(428)
    expect(without.body.type).toBe('/problems/precondition-required')
    const stale = await service.patch(path, { title: 'Lost' }).set('If-Match', '"1"').expect(412)
    expect(stale.body).toMatchObject({ type: '/problems/version-mismatch', status: 412 })
    expect(stale.body.detail).toContain('"2"')
    await service.delete(path).set('If-Match', '"1"').expect(412)
    expect(await service.traces(site.siteId)).toEqual(before)
    await service.patch(path, { title: 'Kept' }).set('If-Match', '"1", "2"').expect(200)
    await service.patch(path, { title: 'Any' }).set('If-Match', '*').expect(200)
  })

  test('of two changes of the same version, sent at once, one is told to read again', async () => {
    const service = await aService()
    const site = await aSite(service)
    const id = idOf(await service.post(`${site.path}/bookings`, aDinner(site)))
    const change = (title: string) =>
      service.patch(`${site.path}/bookings/${id}`, { title }).set('If-Match', '"1"')
    const answers = await Promise.all([change('One'), change('Two')])
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 412])
  })

  test('a change that does not fit is refused, or only told in a dry run; the booking stays as it was', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { booking } = (await service.post(`${site.path}/bookings`, aDinner(site))).body
    const path = `${site.path}/bookings/${booking.id}`
    const crowd = { headcount: 121 }
    const refused = await service.patch(path, crowd).set('If-Match', '"1"').expect(409)
    expect(refused.body.decision.reasons[0]).toMatchObject({
      code: 'headcount-over-seats',
      overridable: true,
    })
    const dry = await service.patch(`${path}?dryRun=true`, crowd).set('If-Match', '"1"').expect(200)
    expect(dry.body.decision.verdict).toBe('does-not-fit')
    const fine = await service
      .patch(`${path}?dryRun=true`, { headcount: 90 })
      .set('If-Match', '"1"')
      .expect(200)
    expect(fine.body.decision.verdict).toBe('fits')
    expect((await service.get(path)).body).toEqual(booking)
  })
})

describe('a booking is cancelled', () => {
  test('it stays readable as cancelled, gives its room back, and cannot be cancelled or changed again', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { booking } = (await service.post(`${site.path}/bookings`, aDinner(site))).body
    const path = `${site.path}/bookings/${booking.id}`
    const answer = await service.delete(path).expect(200)
    expect(answer.body.booking).toEqual({ ...booking, status: 'CANCELLED', version: 2 })
    expect(answer.body.decision.before).toBeNull()
    expect((await service.get(path)).body.status).toBe('CANCELLED')
    const again = await service.delete(path).expect(409)
    expect(again.body.type).toBe('/problems/already-cancelled')
    await service.patch(path, { title: 'Back' }).set('If-Match', '"2"').expect(409)
    expect((await service.get(`${path}/decision`)).body).toMatchObject({ before: null, after: null })
    await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)
  })
})
