import { describe, expect, test } from 'vitest'
import type { Commit, Store } from '../../src/store/store.ts'
import { aService, idOf, type Service } from './a-service.ts'
import {
  type ASite,
  aDinner,
  addTheRest,
  aGamesNight,
  aSite,
  aWeeklyShift,
  everyDay,
  type TheRest,
} from './a-site.ts'

interface Life {
  readonly segment: string
  readonly id: (site: ASite, rest: TheRest) => string
  /** What it is changed with, and what it then says. */
  readonly patch: object
}

const life = (segment: string, id: Life['id'], patch: object): Life => ({
  segment,
  id,
  patch,
})

const lives: Life[] = [
  life('sections', (site) => site.southId, { name: 'Far end' }),
  life('exits', (_, rest) => rest.exitId, { stepFree: true }),
  life('passages', (_, rest) => rest.passageId, { trolleysAtOnce: 2 }),
  life('rooms', (site) => site.southRoomId, { occupantLimitPosted: 90 }),
  life('storage-places', (site) => site.storageId, { areaSquareMetres: 40 }),
  life('furnishings', (site) => site.tableId, { massKilograms: 28 }),
  life('tools', (_, rest) => rest.toolId, { countOwned: 3 }),
  life('equipment', (site) => site.projectorId, { warmUpSeconds: 120 }),
  life('layouts', (site) => site.gamesId, { amplified: true }),
  life('people', (site) => site.personId, { skills: ['sound', 'rigging'] }),
  life('shifts', (_, rest) => rest.shiftId, { name: 'Sundays' }),
  life('closures', (_, rest) => rest.closureId, { reason: 'Floor sealed' }),
  life('stock-changes', (_, rest) => rest.stockChangeId, { note: 'To the school' }),
  life('observations', (_, rest) => rest.observationId, { note: 'Seen from the door' }),
]

/** What must be out of the way before each can be retired: nothing else may need it. */
const retiredInOrder = [
  'observations',
  'stock-changes',
  'closures',
  'shifts',
  'people',
  'layouts',
  'equipment',
  'tools',
  'exits',
] as const

/** A hall with one of everything, and the address of each part of it that can be changed. */
async function everything(service: Service) {
  const site = await aSite(service)
  const rest = await addTheRest(service, site)
  const parts = lives.map((one) => ({ ...one, path: `${site.path}/${one.segment}/${one.id(site, rest)}` }))
  return { site, rest, parts }
}

describe('a part of the set-up', () => {
  test('is changed in what is named, and keeps the rest', async () => {
    const service = await aService()
    for (const { path, patch } of (await everything(service)).parts) {
      const before = await service.get(path).expect(200)
      const changed = await service.patch(path, patch).set('If-Match', '"1"').expect(200)
      const after = { ...before.body, ...patch, version: 2 }
      const decision = expect.objectContaining({ verdict: 'fits' })
      expect(changed.body).toEqual({ ...after, decision })
      expect(changed.headers.etag).toBe('"2"')
      const read = await service.get(path).expect(200)
      expect(read.body).toEqual(after)
      expect(read.headers.etag).toBe('"2"')
    }
  })

  test('is changed and retired only at the version that was read', async () => {
    const service = await aService()
    const { site, parts } = await everything(service)
    const before = await service.traces(site.siteId)
    for (const { path, patch } of parts) {
      for (const send of [() => service.patch(path, patch), () => service.delete(path)]) {
        const without = await send().expect(428)
        expect(without.body.type).toBe('/problems/precondition-required')
        const stale = await send().set('If-Match', '"7"').expect(412)
        expect(stale.body.type).toBe('/problems/version-mismatch')
        expect(stale.body.detail).toContain('is at version "1", If-Match says "7"')
      }
      const nowhere = `${path.slice(0, path.lastIndexOf('_'))}_nowhere`
      await service.patch(nowhere, patch).set('If-Match', '*').expect(404)
      await service.delete(nowhere).set('If-Match', '*').expect(404)
    }
    expect(await service.traces(site.siteId)).toEqual(before)
  })

  test('is changed by one of two who read it at the same time', async () => {
    const service = await aService()
    const site = await aSite(service)
    const change = (name: string) =>
      service.patch(`${site.path}/rooms/${site.hallId}`, { name }).set('If-Match', '"1"')
    const answers = await Promise.all([change('One'), change('Two')])
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 412])
  })

  test('is not changed by a change that says what is so already', async () => {
    const service = await aService()
    const { site, parts } = await everything(service)
    for (const { path, patch } of parts) {
      await service.patch(path, patch).set('If-Match', '"1"').expect(200)
      const before = await service.traces(site.siteId)
      for (const same of [{}, patch]) {
        const answer = await service.patch(path, same).set('If-Match', '"2"').expect(200)
        expect(answer.headers.etag, path).toBe('"2"')
      }
      expect(await service.traces(site.siteId), path).toEqual(before)
    }
  })

  test('is not changed in its id, its site or anything unknown', async () => {
    const service = await aService()
    for (const { path } of (await everything(service)).parts) {
      const unknown = { id: 'x', siteId: 'x', version: 2, retiredAt: null, colour: 'red' }
      const answer = await service.patch(path, unknown).set('If-Match', '"1"').expect(422)
      expect(answer.body.errors, path).toEqual(
        Object.keys(unknown).map((name) => ({ at: `/${name}`, in: 'body', message: 'no such field here' })),
      )
    }
  })

  test('is retired once nothing needs it; it stays readable and is listed when asked for', async () => {
    const service = await aService()
    const { site, rest } = await everything(service)
    for (const segment of retiredInOrder) {
      const one = lives.find((life) => life.segment === segment)!
      const list = `${site.path}/${segment}`
      const inForce = async (query = '') =>
        (await service.get(`${list}${query}`)).body.items.map((item: { id: string }) => item.id)
      // Everything of the kind goes, as what comes later needs none of it.
      for (const id of await inForce()) {
        const path = `${list}/${id}`
        const { version } = (await service.get(path)).body
        const answer = await service.delete(path).set('If-Match', `"${version}"`).expect(200)
        expect(answer.body).toMatchObject({
          id,
          version: version + 1,
          retiredAt: '2026-11-23T09:00:00-06:00',
        })
        expect(answer.headers.etag).toBe(`"${version + 1}"`)
        const { decision, ...read } = answer.body
        expect(decision).toMatchObject({ verdict: 'fits', affected: [] })
        expect((await service.get(path).expect(200)).body).toEqual(read)
        const again = await service.delete(path).set('If-Match', '*').expect(409)
        expect(again.body).toMatchObject({ type: '/problems/already-retired', retryHelps: false })
        const changed = await service.patch(path, one.patch).set('If-Match', '*').expect(409)
        expect(changed.body.type).toBe('/problems/already-retired')
      }
      expect(await inForce(), segment).toEqual([])
      expect(await inForce('?retired=true'), segment).toContain(one.id(site, rest))
    }
  })

  test('that is retired cannot be referred to any more, and that is said', async () => {
    const service = await aService()
    const site = await aSite(service)
    const path = `${site.path}/layouts/${site.worshipId}`
    await service.delete(path).set('If-Match', '"1"').expect(200)
    const home = await service
      .patch(`${site.path}/rooms/${site.upperRoomId}`, { homeLayoutId: site.worshipId })
      .set('If-Match', '"1"')
      .expect(422)
    expect(home.body.errors).toEqual([
      { at: '/homeLayoutId', in: 'body', message: 'layout Rows is retired; take one that is in force' },
    ])
    const booking = { ...aDinner(site), roomId: site.upperRoomId, layoutId: site.worshipId, headcount: 50 }
    await service.post(`${site.path}/bookings`, booking).expect(422)
  })

  test('that another one needs is not retired, and what needs it is named', async () => {
    const service = await aService()
    const site = await aSite(service)
    await addTheRest(service, site)
    const before = await service.traces(site.siteId)
    const refused = async (segment: string, id: string) =>
      (await service.delete(`${site.path}/${segment}/${id}`).set('If-Match', '"1"').expect(409)).body
    const chair = await refused('furnishings', site.chairId)
    expect(chair).toMatchObject({ type: '/problems/still-in-use', retryHelps: false })
    expect(chair.detail).toBe(
      'stacking chair is still needed by layout Games floor, layout Banquet of 15, layout Rows and 1 more. Change, retire or cancel what needs it first.',
    )
    expect(chair.usedBy).toHaveLength(4)
    expect(chair.usedBy[1]).toEqual({ noun: 'layout', id: site.banquetId, name: 'Banquet of 15' })
    expect((await refused('storage-places', site.storageId)).usedBy).toHaveLength(2)
    expect((await refused('sections', site.southId)).usedBy.map(({ id }: { id: string }) => id)).toEqual([
      site.hallId,
      site.southRoomId,
      site.lightsId,
    ])
    expect((await refused('people', site.personId)).detail).toContain('shift Reed, Sundays')
    expect((await refused('rooms', site.hallId)).detail).toContain('storage place Yard store')
    expect(await service.traces(site.siteId)).toEqual(before)
  })

  test('that is retired while another one comes to need it: who comes second is told', async () => {
    let outrun = true
    const service = await aService({
      store: (store): Store => ({
        ...store,
        commit: async (commit: Commit) => {
          if (commit.action === 'add-exit' && outrun) {
            outrun = false
            const { siteId, actorId, at } = commit
            const [after] = (await store.setup(siteId))?.sections.filter(({ name }) => name === 'Yard') ?? []
            const setup = after ? [{ kind: 'section', before: after, after, retire: true } as const] : []
            const place = { siteId, actorId, at, reason: null, planningVersionExpected: null }
            await store.commit({ ...place, action: 'retire-section', setup })
          }
          return store.commit(commit)
        },
      }),
    })
    const { path } = await aSite(service)
    const yard = { name: 'Yard', areaSquareMetres: 60, floorKind: 'concrete' }
    const sectionId = idOf(await service.post(`${path}/sections`, yard))
    const exit = { name: 'Gate', sectionId, clearWidthMetres: 3 }
    const refused = await service.post(`${path}/exits`, exit).expect(422)
    expect(refused.body.errors[0].message).toBe('section Yard is retired; take one that is in force')
  })

  test('that a coming booking needs is not retired; once the booking is cancelled it is', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { booking } = (await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)).body
    const retire = () => service.delete(`${site.path}/layouts/${site.banquetId}`).set('If-Match', '"1"')
    const refused = await retire().expect(409)
    expect(refused.body.usedBy).toEqual([{ noun: 'booking', id: booking.id, name: 'Harvest supper' }])
    await service.delete(`${site.path}/bookings/${booking.id}`).expect(200)
    await retire().expect(200)
  })
})

describe('a change that others rest on is refused', () => {
  const changing = async (service: Service, path: string, patch: object) =>
    (await service.patch(path, patch).set('If-Match', '"1"').expect(422)).body.errors

  test('the sections of a room with coming bookings', async () => {
    const service = await aService()
    const site = await aSite(service)
    await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)
    const path = `${site.path}/rooms/${site.hallId}`
    expect(await changing(service, path, { sectionIds: [site.northId] })).toEqual([
      {
        at: '/sectionIds',
        in: 'body',
        message:
          'the sections of Long Hall stay while bookings are to come, the next one Harvest supper with doors on Sat 28 Nov 16:30; add another room over the sections that are wanted',
      },
    ])
    await service
      .patch(path, { sectionIds: [site.southId, site.northId] })
      .set('If-Match', '"1"')
      .expect(200)
  })

  test('the room of a layout', async () => {
    const service = await aService()
    const site = await aSite(service)
    const path = `${site.path}/layouts/${site.gamesId}`
    expect(await changing(service, path, { roomId: site.southRoomId })).toEqual([
      {
        at: '/roomId',
        in: 'body',
        message: 'a layout stays in its room; add another one for the other room',
      },
    ])
  })

  test('the number of pieces that a layout asks for', async () => {
    const service = await aService()
    const site = await aSite(service)
    const path = `${site.path}/furnishings/${site.tableId}`
    expect(await changing(service, path, { name: 'table', countOwned: 14 })).toEqual([
      {
        at: '/countOwned',
        in: 'body',
        message: 'layout Banquet of 15: the layout asks for 15 round tables, the site owns 14',
      },
    ])
  })
})

describe('what a change does to turns is said with it', () => {
  test('a furnishing that takes longer makes a turn late, and the list of warnings has it', async () => {
    const service = await aService()
    const site = await aSite(service)
    await service.post(`${site.path}/bookings`, aGamesNight(site)).expect(201)
    const supper = { ...aDinner(site), startsAt: '2026-11-27T23:00', endsAt: '2026-11-28T02:00' }
    const { booking } = (await service.post(`${site.path}/bookings`, supper).expect(201)).body
    const changed = await service
      .patch(`${site.path}/furnishings/${site.tableId}`, { setPersonSeconds: 3600 })
      .set('If-Match', '"1"')
      .expect(200)
    expect(changed.body.decision.affected).toContainEqual({
      turnId: booking.turnId,
      bookingId: booking.id,
      verdict: 'does-not-fit',
      message: expect.stringMatching(/^The turn before it, to .* min/),
    })
    const warnings = (await service.get(`${site.path}/warnings`)).body.items
    expect(JSON.stringify(warnings)).toContain(booking.id)
    const back = await service
      .patch(`${site.path}/furnishings/${site.tableId}`, { setPersonSeconds: null })
      .set('If-Match', '"2"')
      .expect(200)
    expect(back.body.decision.affected).toContainEqual(
      expect.objectContaining({ turnId: booking.turnId, verdict: 'fits' }),
    )
  })

  test('a shift that is retired takes its hands along', async () => {
    const service = await aService()
    const site = await aSite(service, { hands: 0 })
    const shiftId = idOf(await service.post(`${site.path}/shifts`, aWeeklyShift(4)))
    const { booking } = (await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)).body
    const retired = await service.delete(`${site.path}/shifts/${shiftId}`).set('If-Match', '"1"').expect(200)
    expect(retired.body.retiredAt).not.toBeNull()
    expect(retired.body.decision.verdict).toBe('does-not-fit')
    expect(retired.body.decision.affected).toEqual([
      {
        turnId: booking.turnId,
        bookingId: booking.id,
        verdict: 'does-not-fit',
        message: expect.stringMatching(/./),
      },
    ])
  })

  test('a closure that is moved judges both the time it leaves and the time it takes', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { booking } = (await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)).body
    const closed = await service
      .post(`${site.path}/closures`, {
        sectionIds: [site.northId],
        fromAt: '2026-12-05T00:00',
        toAt: '2026-12-06T00:00',
        reason: 'New floor',
      })
      .expect(201)
    expect(closed.body.decision.affected).toEqual([])
    const path = `${site.path}/closures/${closed.body.id}`
    const move = (day: number, etag: string) =>
      service
        .patch(path, { fromAt: `2026-11-${day}T00:00`, toAt: `2026-11-${day + 1}T00:00` })
        .set('If-Match', etag)
        .expect(200)
    const onto = await move(28, '"1"')
    expect(onto.body.decision.affected).toEqual([
      {
        turnId: booking.turnId,
        bookingId: booking.id,
        verdict: 'does-not-fit',
        message: expect.stringMatching(/./),
      },
    ])
    const away = await move(25, '"2"')
    expect(away.body.decision.affected).toEqual([
      expect.objectContaining({ turnId: booking.turnId, verdict: 'fits' }),
    ])
  })

  test('a new policy says which turns it changes', async () => {
    const service = await aService()
    const site = await aSite(service)
    await service.post(`${site.path}/bookings`, aGamesNight(site)).expect(201)
    const supper = { ...aDinner(site), startsAt: '2026-11-27T23:30', endsAt: '2026-11-28T02:00' }
    const { booking } = (await service.post(`${site.path}/bookings`, supper).expect(201)).body
    const made = await service.post(`${site.path}/policies`, { paceFactor: 5 }).expect(201)
    expect(made.body.decision.affected).toContainEqual({
      turnId: booking.turnId,
      bookingId: booking.id,
      verdict: 'does-not-fit',
      message: expect.stringMatching(/^The turn before it, to .* min/),
    })
  })
})

describe('a person', () => {
  test('has a name and contact that can be changed alone, and the version moves with them', async () => {
    const service = await aService()
    const site = await aSite(service)
    const path = `${site.path}/people/${site.personId}`
    const changed = await service
      .patch(path, { email: 'reed@example.org', phone: null })
      .set('If-Match', '"1"')
      .expect(200)
    expect(changed.body).toMatchObject({
      name: 'Ottoline Reed',
      email: 'reed@example.org',
      phone: null,
      adult: true,
      skills: ['sound'],
      version: 2,
    })
    const { decision: _decision, ...row } = changed.body
    expect((await service.get(path)).body).toEqual(row)
    expect((await service.get(`${site.path}/audit?limit=200`)).text).not.toContain('reed@example.org')
  })
})

describe('the name and contact of a person', () => {
  const erased = { name: null, email: null, phone: null }

  test('are erased for good, from everything that is answered, and the person stays', async () => {
    const service = await aService()
    const site = await aSite(service)
    const reed = { name: 'Ottoline Reed', email: 'reed@example.org', phone: '555 0100', adult: true }
    const adding = () => service.post(`${site.path}/people`, reed).set('Idempotency-Key', 'once')
    const added = await adding().expect(201)
    const { id } = added.body
    const path = `${site.path}/people/${id}`
    const before = await service.traces(site.siteId)
    const answer = await service.delete(`${path}/details`).expect(204)
    expect(answer.text).toBe('')
    const read = (await service.get(path).expect(200)).body
    expect(read).toMatchObject({ id, ...erased, adult: true, version: 1, retiredAt: null })
    expect((await service.get(`${site.path}/people`)).body.items).toContainEqual(read)
    // The answer that was kept for the key is the same one, without what was erased.
    const again = await adding().expect(201)
    expect(again.headers['idempotent-replayed']).toBe('true')
    expect(again.body).toEqual({ ...added.body, ...erased })
    // Said once more it writes nothing.
    const after = await service.traces(site.siteId)
    expect(after).toEqual({ planningVersion: before.planningVersion, audit: before.audit + 1 })
    await service.delete(`${path}/details`).expect(204)
    expect(await service.traces(site.siteId)).toEqual(after)
    const audit = await service.get(`${site.path}/audit?limit=200`)
    expect(audit.body.items.at(-1)).toMatchObject({
      action: 'erase-person-details',
      reason: `details of ${id}`,
      effects: [],
    })
    expect(audit.text).not.toMatch(/Ottoline|reed@example\.org|555 0100/)
    // Somebody else of the site keeps theirs.
    expect((await service.get(`${site.path}/people/${site.personId}`)).body.phone).toBe('555 0100')
  })

  test('are erased of somebody who is retired', async () => {
    const service = await aService()
    const site = await aSite(service)
    const path = `${site.path}/people/${site.personId}`
    await service.delete(path).set('If-Match', '"1"').expect(200)
    expect((await service.get(path)).body.name).toBe('Ottoline Reed')
    await service.delete(`${path}/details`).expect(204)
    expect((await service.get(path)).body).toMatchObject({
      ...erased,
      retiredAt: '2026-11-23T09:00:00-06:00',
    })
    expect((await service.get(`${site.path}/people?retired=true`)).text).not.toContain('Ottoline')
  })

  test('are erased of nobody who is not there, or is of another site', async () => {
    const service = await aService()
    const here = await aSite(service)
    const there = await aSite(service)
    await service.delete(`${here.path}/people/person_nobody/details`).expect(404)
    await service.delete(`${there.path}/people/${here.personId}/details`).expect(404)
    expect((await service.get(`${here.path}/people/${here.personId}`)).body.name).toBe('Ottoline Reed')
  })

  test('can be given anew to somebody in use, the name first', async () => {
    const service = await aService()
    const site = await aSite(service)
    const path = `${site.path}/people/${site.personId}`
    await service.delete(`${path}/details`).expect(204)
    const change = (fields: object) => service.patch(path, fields).set('If-Match', '"1"')
    const refused = await change({ phone: '555 0111' }).expect(422)
    expect(refused.body.errors).toEqual([
      { at: '/phone', in: 'body', message: 'the name was erased: give the name as well' },
    ])
    const named = await change({ name: 'O. Reed', phone: '555 0111' }).expect(200)
    expect(named.body).toMatchObject({ name: 'O. Reed', email: null, phone: '555 0111', version: 2 })
  })

  test('leave task lists with the id of who is on duty', async () => {
    const service = await aService()
    const site = await aSite(service, { hands: 1 })
    const alone = { ...aWeeklyShift(1), name: 'Evenings', crew: { kind: 'person', personId: site.personId } }
    await service.post(`${site.path}/shifts`, alone).expect(201)
    const { booking } = (await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)).body
    const turn = `${site.path}/turns/${booking.turnId}`
    expect((await service.get(turn)).text).toContain('Ottoline Reed')
    await service.delete(`${site.path}/people/${site.personId}/details`).expect(204)
    const read = await service.get(turn).expect(200)
    expect(read.text).not.toContain('Ottoline')
    expect(read.text).toContain(`"label":"${site.personId}"`)
  })

  test('are not exported once they are erased, and the export is taken', async () => {
    const service = await aService()
    const site = await aSite(service)
    const document = async () => (await service.get(`${site.path}/export`).expect(200)).body
    expect((await document()).personDetails).toHaveLength(1)
    await service.delete(`${site.path}/people/${site.personId}/details`).expect(204)
    const without = await document()
    expect(without.personDetails).toEqual([])
    expect(without.people).toHaveLength(1)
    expect(without.leftOut).toEqual([])
    const another = await aService()
    await another.post('/v1/sites/import', without).expect(201)
    expect((await another.get(`${site.path}/people/${site.personId}`)).body).toMatchObject(erased)
  })
})

describe('tables that are borrowed for a weekend', () => {
  const borrow = async (service: Service, site: ASite) =>
    (
      await service
        .post(`${site.path}/stock-changes`, {
          of: { kind: 'furnishing', furnishingId: site.tableId, count: 4 },
          why: 'borrowed',
          fromAt: '2026-11-27T12:00',
          toAt: '2026-11-30T12:00',
        })
        .expect(201)
    ).body
  const aLargerBanquet = (site: ASite, count = 19) => ({
    roomId: site.hallId,
    name: 'Banquet with the school',
    kind: 'banquet',
    seats: 150,
    furnishings: [{ furnishingId: site.tableId, count }],
  })

  test('allow a layout with more than is owned, up to what is borrowed, in an imported site too', async () => {
    const service = await aService()
    const site = await aSite(service)
    const refused = async (count: number) =>
      (await service.post(`${site.path}/layouts`, aLargerBanquet(site, count)).expect(422)).body.errors
    expect(await refused(19)).toEqual([
      {
        at: '/furnishings/0/count',
        in: 'body',
        message: 'the layout asks for 19 round tables, the site owns 15',
      },
    ])
    await borrow(service, site)
    expect(await refused(20)).toEqual([
      {
        at: '/furnishings/0/count',
        in: 'body',
        message: 'the layout asks for 20 round tables, the site owns 15 and borrows at most 4',
      },
    ])
    const layoutId = idOf(await service.post(`${site.path}/layouts`, aLargerBanquet(site)))
    const larger = { ...aDinner(site), layoutId }
    expect((await service.post(`${site.path}/bookings`, larger).expect(201)).body.decision.verdict).toBe(
      'fits',
    )
    const document = (await service.get(`${site.path}/export`).expect(200)).body
    await (await aService()).post('/v1/sites/import', document).expect(201)
    // Without the loan it is the layout that contradicts the rest.
    const alone = { ...document, stockChanges: [] }
    const imported = await (await aService()).post('/v1/sites/import', alone).expect(422)
    expect(imported.body.detail).toMatch(
      /^\/layouts\/\d\/furnishings\/0\/count: the layout asks for 19 round tables, the site owns 15$/,
    )
  })

  test('are not given back on paper while a layout needs them', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { id } = await borrow(service, site)
    const layoutId = idOf(await service.post(`${site.path}/layouts`, aLargerBanquet(site)))
    const path = `${site.path}/stock-changes/${id}`
    const retired = await service.delete(path).set('If-Match', '"1"').expect(409)
    expect(retired.body).toMatchObject({
      type: '/problems/still-in-use',
      detail: `${id} is still needed by layout Banquet with the school. Change, retire or cancel what needs it first.`,
      usedBy: [{ noun: 'layout', id: layoutId, name: 'Banquet with the school' }],
    })
    const fewer = { of: { kind: 'furnishing', furnishingId: site.tableId, count: 3 } }
    const shrunk = await service.patch(path, fewer).set('If-Match', '"1"').expect(422)
    expect(shrunk.body.errors).toEqual([
      {
        at: '/of',
        in: 'body',
        message:
          'layout Banquet with the school: the layout asks for 19 round tables, the site owns 15 and borrows at most 3',
      },
    ])
    const lent = await service.patch(path, { why: 'lent-out' }).set('If-Match', '"1"').expect(422)
    expect(lent.body.errors[0].at).toBe('/why')
    // A shorter loan is still one.
    await service.patch(path, { toAt: '2026-11-29T12:00' }).set('If-Match', '"1"').expect(200)
    await service.delete(`${site.path}/layouts/${layoutId}`).set('If-Match', '"1"').expect(200)
    await service.delete(path).set('If-Match', '"2"').expect(200)
  })
})

describe('policies and rate sets are followed by others, not changed', () => {
  test.each(['policies', 'rate-sets'])('%s take neither PATCH nor DELETE', async (segment) => {
    const service = await aService()
    const site = await aSite(service)
    await addTheRest(service, site)
    const [{ id }] = (await service.get(`${site.path}/${segment}`)).body.items
    const path = `${site.path}/${segment}/${id}`
    for (const answer of [
      await service.patch(path, {}).set('If-Match', '"1"').expect(405),
      await service.delete(path).set('If-Match', '"1"').expect(405),
    ]) {
      expect(answer.body.type).toBe('/problems/method-not-allowed')
      expect(answer.headers.allow).toBe('GET, HEAD')
    }
  })
})

describe('a site', () => {
  test('is changed at the state that was read, and keeps what is left out', async () => {
    const service = await aService()
    const { path } = await aSite(service)
    const read = await service.get(path).expect(200)
    await service.patch(path, { name: 'Beech Row' }).expect(428)
    await service.patch(path, { name: 'Beech Row' }).set('If-Match', '"0"').expect(412)
    const changed = await service
      .patch(path, { name: 'Beech Row', units: 'us' })
      .set('If-Match', String(read.headers.etag))
      .expect(200)
    expect(changed.body).toEqual({ ...read.body, name: 'Beech Row', units: 'us' })
    expect((await service.get(path)).headers.etag).toBe(changed.headers.etag)
    await service.patch(path, { name: 'Oak Row' }).set('If-Match', String(read.headers.etag)).expect(412)
  })

  test('has an ETag that no booking and no chair moves', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { etag } = (await service.get(site.path)).headers
    await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)
    expect((await service.get(site.path)).headers.etag).toBe(etag)
  })

  test('keeps its time zone while bookings are to come', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { booking } = (await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)).body
    const move = (zone: string) => service.patch(site.path, { zone }).set('If-Match', '*')
    const refused = await move('Europe/London').expect(422)
    expect(refused.body.errors).toEqual([
      {
        at: '/zone',
        in: 'body',
        message:
          'the zone stays while bookings are to come, the next one Harvest supper with doors on Sat 28 Nov 16:30: their wall times would move',
      },
    ])
    await service.delete(`${site.path}/bookings/${booking.id}`).expect(200)
    expect((await move('Europe/London').expect(200)).body.zone).toBe('Europe/London')
    expect((await move('Mars/Base').expect(422)).body.errors[0]).toMatchObject({ at: '/zone' })
  })

  test('is not retired', async () => {
    const service = await aService()
    const { path } = await aSite(service)
    expect((await service.delete(path).expect(405)).headers.allow).toBe('GET, HEAD, PATCH')
  })
})

describe('rate sets', () => {
  test('are the defaults until one is stored, each number with where it comes from', async () => {
    const service = await aService()
    const { path } = await aSite(service)
    const { body } = await service.get(`${path}/rate-sets/in-force`).expect(200)
    expect(body).toMatchObject({ id: null, number: 0, name: 'Defaults' })
    expect(body.rates.fromTrolley['stacking-chair'].setPersonSeconds).toBeGreaterThan(0)
    const marks: { origin: string; source: string }[] = Object.values(body.marks)
    expect(marks.length).toBeGreaterThan(60)
    for (const mark of marks) {
      expect(mark.origin).toBe('default')
      expect(mark.source.length).toBeGreaterThan(0)
    }
    expect((await service.get(`${path}/rate-sets`)).body.items).toEqual([])
  })

  test('change what they name, mark it, and keep the rest with its marks', async () => {
    const service = await aService()
    const { path } = await aSite(service)
    const defaults = (await service.get(`${path}/rate-sets/in-force`)).body
    const first = await service
      .post(`${path}/rate-sets`, {
        name: 'Timed in October',
        rates: { fromTrolley: { 'stacking-chair': { setPersonSeconds: 8 } } },
        origin: 'learned',
        source: '14 turns in October',
      })
      .expect(201)
    const second = await service
      .post(`${path}/rate-sets`, {
        name: 'With the new trolleys',
        rates: { trolleyHandlingSeconds: 45, walkthroughModes: [{ hands: 1, seconds: 240 }] },
      })
      .expect(201)
    expect(first.body).toMatchObject({ number: 1, version: 1, retiredAt: null, decision: { affected: [] } })
    expect(second.body.number).toBe(2)
    expect(second.body.rates).toEqual({
      ...defaults.rates,
      fromTrolley: {
        ...defaults.rates.fromTrolley,
        'stacking-chair': { ...defaults.rates.fromTrolley['stacking-chair'], setPersonSeconds: 8 },
      },
      trolleyHandlingSeconds: 45,
      walkthroughModes: [{ hands: 1, seconds: 240 }],
    })
    const { marks } = second.body
    expect(marks['fromTrolley.stacking-chair.setPersonSeconds']).toEqual({
      origin: 'learned',
      source: '14 turns in October',
    })
    expect(marks.trolleyHandlingSeconds).toEqual({
      origin: 'set',
      source: 'set by the site, no source given',
    })
    expect(marks['walkthroughModes.0.seconds'].origin).toBe('set')
    expect(marks).not.toHaveProperty(['walkthroughModes.1.seconds'])
    expect(marks['signOffModes.0.seconds'].origin).toBe('default')
    expect((await service.get(`${path}/rate-sets/in-force`)).body).toMatchObject({
      id: second.body.id,
      number: 2,
    })
    const all = (await service.get(`${path}/rate-sets?retired=true`)).body.items
    expect(all.map(({ number }: { number: number }) => number).sort()).toEqual([1, 2])
    expect((await service.get(`${path}/rate-sets`)).body.items).toHaveLength(1)
  })

  test('put a number, or a list, back to its default where null stands for it, and its mark too', async () => {
    const service = await aService()
    const { path } = await aSite(service)
    const defaults = (await service.get(`${path}/rate-sets/in-force`)).body
    const add = async (rates: object) =>
      (await service.post(`${path}/rate-sets`, { name: 'Ours', rates }).expect(201)).body
    await add({
      fromTrolley: { 'stacking-chair': { setPersonSeconds: 8, strikePersonSeconds: 7 } },
      trolleyHandlingSeconds: 45,
      walkthroughModes: [{ hands: 1, seconds: 240 }],
    })
    const back = await add({
      fromTrolley: { 'stacking-chair': { setPersonSeconds: null } },
      walkthroughModes: null,
      walkingMetresPerSecond: 1.4,
    })
    const { rates } = defaults
    expect(back.rates).toEqual({
      ...rates,
      fromTrolley: {
        ...rates.fromTrolley,
        'stacking-chair': { ...rates.fromTrolley['stacking-chair'], strikePersonSeconds: 7 },
      },
      trolleyHandlingSeconds: 45,
      walkingMetresPerSecond: 1.4,
    })
    const set = { origin: 'set', source: 'set by the site, no source given' }
    expect(back.marks).toEqual({
      ...defaults.marks,
      'fromTrolley.stacking-chair.strikePersonSeconds': set,
      trolleyHandlingSeconds: set,
      walkingMetresPerSecond: set,
    })
    // Nothing named: nothing changed but the number of the set.
    const same = await add({})
    expect([same.rates, same.marks]).toEqual([back.rates, back.marks])
    const refused = await service.post(`${path}/rate-sets`, { name: 'X', rates: { fromTrolley: null } })
    expect(refused.body.errors).toEqual([
      { at: '/rates/fromTrolley', in: 'body', message: 'must be an object' },
    ])
  })

  test('make turns longer or shorter, and say which', async () => {
    const service = await aService()
    const site = await aSite(service)
    await service.post(`${site.path}/bookings`, aGamesNight(site)).expect(201)
    const supper = { ...aDinner(site), startsAt: '2026-11-27T23:30', endsAt: '2026-11-28T02:00' }
    const { booking } = (await service.post(`${site.path}/bookings`, supper).expect(201)).body
    const slow = { fromTrolley: { 'round-table': { setPersonSeconds: 3600 } } }
    const made = await service.post(`${site.path}/rate-sets`, { name: 'Slow', rates: slow }).expect(201)
    expect(made.body.decision.affected).toContainEqual({
      turnId: booking.turnId,
      bookingId: booking.id,
      verdict: 'does-not-fit',
      message: expect.stringMatching(/^The turn before it, to .* min/),
    })
  })
})

describe('opening hours and other lists', () => {
  test('are taken whole, with the defaults of what is within them', async () => {
    const service = await aService()
    const site = await aSite(service)
    const path = `${site.path}/equipment/${site.projectorId}`
    const control = {
      kind: 'states',
      states: ['off', 'slides', 'film'],
      homeState: 'off',
      transitions: [
        { from: 'off', to: 'slides', seconds: 120, hands: 0 },
        { from: 'slides', to: 'film', seconds: 20, hands: 1 },
        { from: 'film', to: 'off', seconds: 180, hands: 0 },
      ],
    }
    const changed = await service.patch(path, { control }).set('If-Match', '"1"').expect(200)
    expect(changed.body.control.transitions[1]).toMatchObject({
      skill: null,
      needsFloorClear: false,
      needsQuiet: false,
    })
    const room = `${site.path}/rooms/${site.upperRoomId}`
    const openingHours = [{ weekdays: everyDay, opensLocal: '08:00', closesLocal: '22:00' }]
    const opened = await service.patch(room, { openingHours }).set('If-Match', '"1"').expect(200)
    expect(opened.body.openingHours).toEqual(openingHours)
  })
})
