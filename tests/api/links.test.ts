import { describe, expect, test } from 'vitest'
import { Instant } from '../../src/domain/instant.ts'
import { aService, idOf, NOW, type Service } from './a-service.ts'
import { type ASite, aDinner, aSite } from './a-site.ts'

/** Noon of Wednesday 25 November 2026. */
const untilWednesday = { hold: { expiresAt: '2026-11-25T12:00' } }
const WEDNESDAY_NOON = Instant.parse(Date.UTC(2026, 10, 25, 18))

/** A wedding: rehearsal and reception in the hall, the service between them in the upper room. */
const aWedding = (site: ASite) => ({
  rehearsal: {
    ...aDinner(site),
    title: 'Rehearsal',
    startsAt: '2026-11-27T18:00',
    endsAt: '2026-11-27T19:00',
  },
  service: {
    title: 'Wedding',
    roomId: site.upperRoomId,
    layoutId: site.worshipId,
    headcount: 60,
    startsAt: '2026-11-28T14:00',
    endsAt: '2026-11-28T15:00',
  },
  reception: { ...aDinner(site), title: 'Reception' },
})

async function aHall() {
  let now = NOW
  const service = await aService({ clock: () => now })
  const site = await aSite(service)
  const book = async (body: object) => idOf(await service.post(`${site.path}/bookings`, body))
  const link = (bookingIds: string[], more: object = {}) =>
    service.post(`${site.path}/links`, { bookingIds, ...more })
  const read = async (id: string) => (await service.get(`${site.path}/bookings/${id}`).expect(200)).body
  return {
    service,
    site,
    book,
    link,
    read,
    setClock: (moment: Instant) => {
      now = moment
    },
  }
}

/** The three of a wedding, each with other fields; not linked yet. */
async function aWeddingBooked(fields: object = {}) {
  const hall = await aHall()
  const { rehearsal, service, reception } = aWedding(hall.site)
  const ids = {
    rehearsal: await hall.book({ ...rehearsal, ...fields }),
    service: await hall.book({ ...service, ...fields }),
    reception: await hall.book({ ...reception, ...fields }),
  }
  return { ...hall, ids, all: [ids.rehearsal, ids.service, ids.reception] }
}

const cancel = (service: Service, site: ASite, id: string) => service.delete(`${site.path}/bookings/${id}`)

describe('bookings are linked', () => {
  test('and each says so; the link is read with them by doors', async () => {
    const { service, site, link, read, ids, all } = await aWeddingBooked()
    const answer = await link([ids.reception, ids.rehearsal, ids.service]).expect(201)
    const { id } = answer.body.link
    expect(id).toMatch(/^link_/)
    expect(answer.body.link).toEqual({ id, bookingIds: all, keepAsSet: false, kept: [] })
    expect(answer.body.decision.verdict).toBe('fits')
    expect(answer.headers.location).toBe(`${site.path}/links/${id}`)
    expect((await service.get(`${site.path}/links/${id}`).expect(200)).body).toEqual(answer.body.link)
    for (const booking of all)
      expect(await read(booking)).toMatchObject({ linkId: id, keepAsSet: false, version: 2 })
    const audit = (await service.get(`${site.path}/audit?limit=200`)).body.items
    expect(audit.at(-1)).toMatchObject({ action: 'link' })
  })

  test('one at least two, at most twenty, each once, none cancelled', async () => {
    const { service, site, link, ids } = await aWeddingBooked()
    await cancel(service, site, ids.service).expect(200)
    const before = await service.traces(site.siteId)
    const faults = async (bookingIds: string[]) =>
      (await link(bookingIds).expect(422)).body.errors.map(
        ({ at, message }: { at: string; message: string }) => [at, message],
      )
    expect(await faults([ids.rehearsal])).toEqual([['/bookingIds', 'list at least 2']])
    expect(await faults(Array.from({ length: 21 }, (_, index) => `booking_${index}`))).toEqual([
      ['/bookingIds', 'list at most 20'],
    ])
    expect(await faults([ids.rehearsal, ids.reception, ids.rehearsal])).toEqual([
      ['/bookingIds/2', `booking ${ids.rehearsal} is listed twice; list it once`],
    ])
    expect(await faults([ids.rehearsal, 'booking_none', ids.service])).toEqual([
      ['/bookingIds/1', 'there is no booking booking_none in this site'],
      ['/bookingIds/2', 'Wedding is cancelled; leave it out'],
    ])
    expect(await service.traces(site.siteId)).toEqual(before)
  })

  test('not where some are held and others firm: they could not stand or fall together', async () => {
    const { service, site, book, link, ids } = await aWeddingBooked()
    const held = await book({
      ...aDinner(site),
      startsAt: '2026-12-05T17:00',
      endsAt: '2026-12-05T20:00',
      ...untilWednesday,
    })
    const before = await service.traces(site.siteId)
    const refused = await link([ids.service, held]).expect(422)
    expect(refused.body.errors).toEqual([
      {
        at: '/bookingIds',
        in: 'body',
        message:
          '“Harvest supper” is only a hold: if it lapsed, the firm ones would fall with it; confirm the hold first, then link them',
      },
    ])
    expect(await service.traces(site.siteId)).toEqual(before)
  })

  test('anew: they leave the link that they had', async () => {
    const { service, site, link, read, ids, all } = await aWeddingBooked()
    const first = (await link(all).expect(201)).body.link.id
    const second = (await link([ids.service, ids.reception]).expect(201)).body.link.id
    expect((await read(ids.service)).linkId).toBe(second)
    expect((await read(ids.rehearsal)).linkId).not.toBe(second)
    const left = await service.get(`${site.path}/links/${first}`)
    expect(left.status === 404 || left.body.bookingIds.length === 1).toBe(true)
  })

  test('once: sent again with the same key, no second link is made', async () => {
    const { service, site, all } = await aWeddingBooked()
    const send = () =>
      service.post(`${site.path}/links`, { bookingIds: all }).set('Idempotency-Key', 'wedding-1')
    const first = await send().expect(201)
    const before = await service.traces(site.siteId)
    expect((await send().expect(201)).text).toBe(first.text)
    expect(await service.traces(site.siteId)).toEqual(before)
  })

  test('a link that is not there is told', async () => {
    const { service, site } = await aHall()
    for (const id of ['link_none', 'wedding']) {
      const answer = await service.get(`${site.path}/links/${id}`).expect(404)
      expect(answer.body).toMatchObject({
        type: '/problems/unknown-resource',
        detail: `There is no link ${id} here.`,
      })
      await service.delete(`${site.path}/links/${id}`).expect(404)
    }
  })
})

describe('linked bookings stand or fall together', () => {
  test('cancelling one cancels all, and the answer names the others by doors', async () => {
    const { service, site, link, read, ids, all } = await aWeddingBooked()
    await link(all).expect(201)
    const answer = await cancel(service, site, ids.service).expect(200)
    expect(answer.body.booking).toMatchObject({ id: ids.service, status: 'CANCELLED' })
    expect(answer.body.alsoCancelled).toEqual([ids.rehearsal, ids.reception])
    for (const booking of all) expect(await read(booking)).toMatchObject({ status: 'CANCELLED' })
    const other = { ...aDinner(site), title: 'Another supper' }
    await service.post(`${site.path}/bookings`, other).expect(201)
  })

  test('cancelling one that stands by itself cancels nothing else', async () => {
    const { service, site, link, read, ids } = await aWeddingBooked()
    await link([ids.rehearsal, ids.service]).expect(201)
    const answer = await cancel(service, site, ids.reception).expect(200)
    expect(answer.body.alsoCancelled).toEqual([])
    expect(await read(ids.rehearsal)).toMatchObject({ status: 'CONFIRMED' })
  })

  test('cancelling one leaves what has taken place', async () => {
    const { service, site, link, read, ids, all, setClock } = await aWeddingBooked()
    const { id } = (await link(all, { keepAsSet: true }).expect(201)).body.link
    // Half an hour into the rehearsal.
    setClock(Instant.parse(Date.UTC(2026, 10, 28, 0, 30)))
    const answer = await cancel(service, site, ids.service).expect(200)
    expect(answer.body.alsoCancelled).toEqual([ids.reception])
    expect(await read(ids.rehearsal)).toMatchObject({ status: 'CONFIRMED', keptUntilAt: null })
    expect((await service.get(`${site.path}/links/${id}`)).body).toMatchObject({
      bookingIds: [ids.rehearsal],
      kept: [],
    })
  })

  test('confirming one hold makes all firm, by doors', async () => {
    const { service, site, link, read, ids, all } = await aWeddingBooked(untilWednesday)
    await link(all).expect(201)
    const answer = await service.post(`${site.path}/bookings/${ids.reception}/confirm`, {}).expect(200)
    expect(answer.body.bookings.map(({ id }: { id: string }) => id)).toEqual(all)
    for (const booking of answer.body.bookings) {
      expect(booking).toMatchObject({ status: 'CONFIRMED', holdExpiresAt: null })
      expect(await read(booking.id)).toEqual(booking)
    }
  })

  test('when one hold is over all are given up', async () => {
    const { service, site, link, read, all, setClock } = await aWeddingBooked(untilWednesday)
    await link(all).expect(201)
    setClock(WEDNESDAY_NOON)
    await service.post(`${site.path}/bookings`, { ...aDinner(site), title: 'Another supper' }).expect(201)
    for (const booking of all) expect(await read(booking)).toMatchObject({ status: 'CANCELLED' })
    const audit = (await service.get(`${site.path}/audit?limit=200`)).body.items
    expect(audit.filter(({ action }: { action: string }) => action === 'lapse')).toHaveLength(1)
  })
})

describe('a link is undone', () => {
  test('and each of its bookings stands by itself again', async () => {
    const { service, site, link, read, ids, all } = await aWeddingBooked()
    const { id } = (await link(all).expect(201)).body.link
    const answer = await service.delete(`${site.path}/links/${id}`).expect(200)
    expect(answer.body.bookings.map((one: { id: string }) => one.id)).toEqual(all)
    for (const booking of answer.body.bookings) {
      expect(booking).toMatchObject({ linkId: null, keepAsSet: false, keptUntilAt: null, version: 3 })
      expect(await read(booking.id)).toEqual(booking)
    }
    await service.get(`${site.path}/links/${id}`).expect(404)
    const audit = (await service.get(`${site.path}/audit?limit=200`)).body.items
    expect(audit.at(-1)).toMatchObject({ action: 'unlink' })
    const cancelled = await cancel(service, site, ids.service).expect(200)
    expect(cancelled.body.alsoCancelled).toEqual([])
  })
})

describe('a room is kept as it is set', () => {
  const twoSuppers = async () => {
    const hall = await aHall()
    const { site, book } = hall
    const eve = { ...aDinner(site), startsAt: '2026-11-27T18:00', endsAt: '2026-11-27T19:00' }
    const ids = [await book(eve), await book(aDinner(site))]
    return { ...hall, ids }
  }
  /** Between the two: Saturday morning. */
  const between = (site: ASite) => ({
    ...aDinner(site),
    layoutId: site.gamesId,
    headcount: 20,
    startsAt: '2026-11-28T10:00',
    endsAt: '2026-11-28T11:00',
  })

  test('until the next booking of the link: nobody else gets it before', async () => {
    const { service, site, link, read, ids } = await twoSuppers()
    const made = await link(ids, { keepAsSet: true }).expect(201)
    const [afterBookingId, beforeBookingId] = ids
    const toAt = '2026-11-28T16:30:00-06:00'
    expect(made.body.link).toMatchObject({
      bookingIds: ids,
      keepAsSet: true,
      kept: [
        { roomId: site.hallId, afterBookingId, beforeBookingId, fromAt: '2026-11-27T19:45:00-06:00', toAt },
      ],
    })
    expect((await service.get(`${site.path}/links/${made.body.link.id}`)).body).toEqual(made.body.link)
    expect(await read(ids[0] ?? '')).toMatchObject({ keepAsSet: true, keptUntilAt: toAt })
    const refused = await service.post(`${site.path}/bookings`, between(site)).expect(409)
    expect(refused.body.decision.reasons[0]).toMatchObject({ code: 'room-occupied', bookingId: ids[0] })
    await service.delete(`${site.path}/links/${made.body.link.id}`).expect(200)
    await service.post(`${site.path}/bookings`, between(site)).expect(201)
  })

  test('between those that are there, also where another one of the link is elsewhere', async () => {
    const { service, site, link, read, ids, all } = await aWeddingBooked()
    const made = await link(all, { keepAsSet: true }).expect(201)
    const { id, kept } = made.body.link
    expect(made.body.link.bookingIds).toEqual(all)
    expect(kept).toMatchObject([
      { roomId: site.hallId, afterBookingId: ids.rehearsal, beforeBookingId: ids.reception },
    ])
    expect(kept).toHaveLength(1)
    expect((await service.get(`${site.path}/links/${id}`)).body).toEqual(made.body.link)
    expect(await read(ids.service)).toMatchObject({ linkId: id, keepAsSet: true, keptUntilAt: null })
    await service.post(`${site.path}/bookings`, between(site)).expect(409)
    const answer = await cancel(service, site, ids.service).expect(200)
    expect(answer.body.alsoCancelled).toEqual([ids.rehearsal, ids.reception])
    await service.post(`${site.path}/bookings`, between(site)).expect(201)
  })

  test('only where two of them are in one room with one layout: else there is nothing to keep', async () => {
    const { service, site, link, ids } = await aWeddingBooked()
    const before = await service.traces(site.siteId)
    const refused = await link([ids.rehearsal, ids.service], { keepAsSet: true }).expect(422)
    expect(refused.body.errors).toEqual([
      {
        at: '/keepAsSet',
        in: 'body',
        message:
          'there is nothing to keep as set: no two of them follow one another in the same room with the same layout; ' +
          'give two of them one room and one layout, or link them without keepAsSet',
      },
    ])
    expect(await service.traces(site.siteId)).toEqual(before)
  })

  test('not where somebody stands between them already: the answer names the booking', async () => {
    const { service, site, book, link, all } = await aWeddingBooked()
    const taken = await book({ ...between(site), title: 'Games morning' })
    const before = await service.traces(site.siteId)
    const refused = await link(all, { keepAsSet: true }).expect(409)
    expect(refused.body.type).toBe('/problems/does-not-fit')
    expect(refused.body.detail).toContain('by “Games morning”.')
    expect(refused.body.decision.reasons[0]).toMatchObject({ code: 'room-occupied', bookingId: taken })
    expect(await service.traces(site.siteId)).toEqual(before)
    await link(all).expect(201)
  })

  test('not for more than 31 days', async () => {
    const { service, site, book, link, ids } = await aWeddingBooked()
    const late = await book({
      ...aDinner(site),
      title: 'Thanks',
      startsAt: '2027-01-02T17:00',
      endsAt: '2027-01-02T20:00',
    })
    const before = await service.traces(site.siteId)
    const refused = await link([ids.reception, late], { keepAsSet: true }).expect(422)
    expect(refused.body.errors).toEqual([
      {
        at: '/keepAsSet',
        in: 'body',
        message:
          'a room is kept as set for 31 days at most, and “Thanks” comes later than that after “Reception”; ' +
          'link them without keepAsSet',
      },
    ])
    expect(await service.traces(site.siteId)).toEqual(before)
  })
})
