import { once } from 'node:events'
import http from 'node:http'
import type { AddressInfo, Socket } from 'node:net'
import request from 'supertest'
import { describe, expect, onTestFinished, test } from 'vitest'
import { buildApp } from '../../src/api/app.ts'
import type { EventSettings } from '../../src/api/events/event-settings.ts'
import { resourcePath } from '../../src/api/events/resource-path.ts'
import { setupKinds } from '../../src/domain/setup.ts'
import { orderlyClose } from '../../src/orderly-close.ts'
import { openSqliteDatabase } from '../../src/store/open-sqlite-database.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import type { Store } from '../../src/store/store.ts'
import { inProcessDecider } from '../../src/worker/in-process-decider.ts'
import { aFolder } from '../store/a-database-file.ts'
import { aCommit, addition, at, founding, siteId } from '../store/a-world.ts'
import { addKeeper, KEEPER, keptParts } from './a-keeper.ts'
import { idOf, NOW, type Service } from './a-service.ts'
import { aDinner, addTheRest, aGamesNight, aSite } from './a-site.ts'
import { anEventStream } from './an-event-stream.ts'

interface ListeningOptions {
  readonly file?: string
  readonly eventSettings?: Partial<EventSettings>
  /** What stands between the service and its store. */
  readonly through?: (store: Store) => Store
}

/** The real service, listening; nothing in it happens by itself unless a test asks for it. */
async function aListeningService(options: ListeningOptions = {}) {
  const opened = await openSqliteStore({ file: options.file ?? ':memory:' })
  const store = options.through?.(opened) ?? opened
  const decider = inProcessDecider(store)
  let ids = 0
  const app = buildApp({
    store,
    decider,
    clock: () => NOW,
    newId: (prefix) => `${prefix}_t${String(++ids).padStart(4, '0')}`,
    log: false,
    ...keptParts,
    eventSettings: {
      pollMilliseconds: 3_600_000,
      keepAliveMilliseconds: 3_600_000,
      ...options.eventSettings,
    },
  })
  await addKeeper(opened, NOW)
  const stop = orderlyClose(app, { cutAfterMilliseconds: 3_600_000 })
  await app.listen({ port: 0, host: '127.0.0.1' })
  onTestFinished(async () => {
    await stop()
    await decider.close()
    opened.close()
  })
  const url = `http://127.0.0.1:${(app.server.address() as AddressInfo).port}`
  const to = () => request(url)
  const service: Service = {
    app,
    store,
    get: (path) => to().get(path).set(KEEPER),
    post: (path, body) => to().post(path).set(KEEPER).send(Object(body)),
    patch: (path, body) => to().patch(path).set(KEEPER).send(Object(body)),
    delete: (path) => to().delete(path).set(KEEPER),
    traces: () => Promise.reject(new Error('not needed here')),
  }
  return { service, store, app, url, events: `${url}/v1/events`, stop }
}

/** So many parts of the hall more, in one commit. */
const addSections = (store: Store, count: number, firstNumber = 1): Promise<number> =>
  store.commit(
    aCommit({
      planningVersionExpected: null,
      action: 'add-section',
      setup: Array.from({ length: count }, (_, index) =>
        addition('section', {
          id: `section_n${firstNumber + index}`,
          name: `Bay ${firstNumber + index}`,
          areaSquareMetres: 20,
          floorKind: 'sealed-wood',
        }),
      ),
    }),
  )

const wholeNumbers = (first: number, last: number): number[] =>
  Array.from({ length: last - first + 1 }, (_, index) => first + index)

describe('a stream of events', () => {
  test('begins now: says how to come back and where it begins, and then tells a booking as it is made', async () => {
    const { service, store, events } = await aListeningService()
    const site = await aSite(service)
    const newest = await store.newestChange()
    const stream = await anEventStream(events)
    expect(stream.status).toBe(200)
    expect(stream.headers).toMatchObject({
      'content-type': 'text/event-stream; charset=utf-8',
      'cache-control': 'no-store',
      'x-accel-buffering': 'no',
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'no-referrer',
    })
    await stream.untilId(newest)
    expect(stream.text()).toBe(
      `: changes of the hall\nretry: 3000\n\nid: ${newest}\nevent: ready\ndata: {"sequence":${newest}}\n\n`,
    )

    const { booking } = (await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)).body
    const { items } = (await service.get(`${site.path}/audit?limit=200`)).body
    const common = {
      siteId: site.siteId,
      what: 'added',
      at: '2026-11-23T09:00:00-06:00',
      auditSequence: items.at(-1).sequence,
    }
    await stream.untilId(newest + 2)
    expect(stream.events().slice(1)).toEqual([
      {
        id: newest + 1,
        event: 'change',
        data: {
          ...common,
          resourceKind: 'booking',
          resourceId: booking.id,
          href: `${site.path}/bookings/${booking.id}`,
        },
      },
      {
        id: newest + 2,
        event: 'change',
        data: {
          ...common,
          resourceKind: 'turn',
          resourceId: booking.turnId,
          href: `${site.path}/turns/${booking.turnId}`,
        },
      },
    ])
  })

  test('tells every kind of change, each with the path where it is read, and nothing of who a person is', async () => {
    const { service, store, events } = await aListeningService()
    const site = await aSite(service)
    const { booking } = (await service.post(`${site.path}/bookings`, aGamesNight(site)).expect(201)).body
    await service.delete(`${site.path}/bookings/${booking.id}`).expect(200)
    const { closureId } = await addTheRest(service, site)
    const closure = `${site.path}/closures/${closureId}`
    const { etag } = (await service.get(closure)).headers
    await service.delete(closure).set('If-Match', String(etag)).expect(200)
    await service.delete(`${site.path}/people/${site.personId}/details`).expect(204)
    const stream = await anEventStream(events, { 'last-event-id': '0' })
    await stream.until(() => stream.events().some(({ event }) => event === 'ready'))

    const changes = stream.events().filter(({ event }) => event === 'change')
    expect(changes).toHaveLength(await store.newestChange())
    const kinds = new Set(changes.map(({ data }) => data.resourceKind))
    expect([...kinds].sort()).toEqual([...setupKinds, 'site', 'personDetails', 'booking', 'turn'].sort())
    const words = new Set(changes.map(({ data }) => data.what))
    expect([...words].sort()).toEqual(['added', 'cancelled', 'changed', 'dropped', 'erased', 'retired'])
    for (const { data } of changes) {
      const { body } = await service.get(String(data.href)).expect(200)
      expect(body.id, String(data.href)).toBe(data.resourceId)
    }
    expect(stream.text()).not.toMatch(/Ottoline|Reed|555/)
  })

  test('gives no path to what it does not know', () => {
    const entry = { sequence: 1, siteId, auditSequence: 1, at: at(0), what: 'added', zone: 'Europe/London' }
    expect(resourcePath({ ...entry, resourceKind: 'parade', resourceId: 'parade_1' })).toBeNull()
  })

  test('tells the changes of one site only when one is named, by the clock of each site', async () => {
    const { service, store, events } = await aListeningService()
    const here = await aSite(service)
    const there = idOf(await service.post('/v1/sites', { name: 'Sandpiper Rooms', zone: 'Asia/Kolkata' }))
    const [ofHere, ofThere, ofAll] = await Promise.all([
      anEventStream(`${events}?site=${here.siteId}`),
      anEventStream(`${events}?site=${there}`),
      anEventStream(events),
    ])
    const newest = await store.newestChange()
    for (const stream of [ofHere, ofThere, ofAll]) await stream.untilId(newest)
    const add = (path: string) =>
      service.post(`${path}/tools`, { name: 'mop', namePlural: 'mops', countOwned: 1 })
    await add(`/v1/sites/${there}`).expect(201)
    await add(here.path).expect(201)
    await add(`/v1/sites/${there}`).expect(201)
    await add(here.path).expect(201)
    await ofHere.untilId(newest + 4)
    await ofThere.untilId(newest + 3)
    await ofAll.untilId(newest + 4)
    expect(ofHere.changeIds()).toEqual([newest + 2, newest + 4])
    expect(ofThere.changeIds()).toEqual([newest + 1, newest + 3])
    expect(ofAll.changeIds()).toEqual(wholeNumbers(newest + 1, newest + 4))
    expect(ofAll.events().map(({ data }) => data.at)).toEqual([
      undefined,
      '2026-11-23T20:30:00+05:30',
      '2026-11-23T09:00:00-06:00',
      '2026-11-23T20:30:00+05:30',
      '2026-11-23T09:00:00-06:00',
    ])

    const missed = await anEventStream(`${events}?site=${there}&lastEventId=${newest + 1}`)
    await missed.untilId(newest + 4)
    expect(missed.events().map(({ event, id }) => [event, id])).toEqual([
      ['change', newest + 3],
      ['ready', newest + 4],
    ])
  })

  test('is refused for a site that is not there', async () => {
    const { service } = await aListeningService()
    for (const site of ['site_nowhere', 'nowhere']) {
      const answer = await service.get(`/v1/events?site=${site}`).expect(404)
      expect(answer.headers['content-type']).toContain('application/problem+json')
      expect(answer.body).toMatchObject({
        type: '/problems/unknown-resource',
        detail: `There is no site ${site} here.`,
      })
    }
  })

  test('is only looked at with HEAD, and takes no other method', async () => {
    const { service, url } = await aListeningService()
    const asked = http.request(`${url}/v1/events`, { method: 'HEAD', agent: false, headers: KEEPER }).end()
    const [answer] = (await once(asked, 'response')) as [http.IncomingMessage]
    expect(answer.statusCode).toBe(200)
    expect(answer.headers['content-type']).toBe('text/event-stream; charset=utf-8')
    answer.resume()
    await once(answer, 'end')
    expect((await service.post('/v1/events', {}).expect(405)).headers.allow).toBe('GET, HEAD')
  })

  test('is kept open by a comment from time to time', async () => {
    const { events } = await aListeningService({ eventSettings: { keepAliveMilliseconds: 5 } })
    const stream = await anEventStream(events)
    await stream.until(() => stream.text().split(': still here\n\n').length > 3)
    expect(stream.events()).toEqual([{ id: 0, event: 'ready', data: { sequence: 0 } }])
  })
})

describe('whoever comes back to a stream of events', () => {
  test('gets what was missed, in order and each once, and then what happens', async () => {
    const { service, store, events } = await aListeningService()
    const site = await aSite(service)
    const newest = await store.newestChange()
    const first = await anEventStream(events)
    await first.untilId(newest)
    const { booking } = (await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)).body
    await first.untilId(newest + 2)
    first.hangUp()
    await first.ended
    await service.delete(`${site.path}/bookings/${booking.id}`).expect(200)
    await service.post(`${site.path}/bookings`, aGamesNight(site)).expect(201)
    const missedUpTo = await store.newestChange()
    expect(missedUpTo).toBeGreaterThan(newest + 4)

    const second = await anEventStream(events, { 'last-event-id': String(newest + 1) })
    await second.until(() => second.events().some(({ event }) => event === 'ready'))
    expect(second.changeIds()).toEqual(wholeNumbers(newest + 2, missedUpTo))
    expect(second.events().at(-1)).toEqual({ id: missedUpTo, event: 'ready', data: { sequence: missedUpTo } })
    await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)
    const last = await store.newestChange()
    await second.untilId(last)
    expect(second.changeIds()).toEqual(wholeNumbers(newest + 2, last))
  })

  test('misses nothing and gets nothing twice while others go on writing', async () => {
    const { store, events } = await aListeningService()
    await store.commit(founding)
    const first = await store.newestChange()
    const live = await anEventStream(events)
    await live.untilId(first)
    await addSections(store, 1_400)
    const before = first + 1_400
    await live.untilId(before)
    // Some are further behind than is read at a time, some by a little, one by nothing.
    const lastIds = [0, 1, 400, 900, before - 501, before - 500, before - 499, before - 1, before]
    const opening = lastIds.map((id) => anEventStream(events, { 'last-event-id': String(id) }))
    for (let round = 0; round < 150; round++) {
      await addSections(store, 2, 10_000 + 2 * round)
      // What waits to be sent and read has its turn.
      if (round % 3 > 0) await new Promise((resolve) => setImmediate(resolve))
    }
    const streams = await Promise.all(opening)
    const last = await store.newestChange()
    expect(last).toBe(before + 300)
    for (const [index, stream] of streams.entries()) {
      await stream.untilId(last)
      expect(stream.changeIds(), `behind since ${lastIds[index]}`).toEqual(
        wholeNumbers((lastIds[index] ?? 0) + 1, last),
      )
      expect(stream.events().filter(({ event }) => event === 'ready')).toHaveLength(1)
    }
    await live.untilId(last)
    expect(live.changeIds()).toEqual(wholeNumbers(first + 1, last))
  })

  test.each([true, false])(
    'misses nothing that is written just before it is up to date, others listening already: %s',
    async (othersListen) => {
      const slowReading = aGate()
      const { store, events } = await aListeningService({
        through: (opened) => ({
          ...opened,
          // Only a stream that catches up asks for one site; it is given what was there when it asked.
          changesAfter: async (siteIds, ...asked) => {
            const entries = await opened.changesAfter(siteIds, ...asked)
            if (siteIds !== null) await slowReading.passed()
            return entries
          },
        }),
      })
      await store.commit(founding)
      const newest = await store.newestChange()
      const other = othersListen ? await anEventStream(events) : null
      await other?.untilId(newest)
      const stream = await anEventStream(`${events}?site=${siteId}&lastEventId=${newest}`)
      await slowReading.reached
      await addSections(store, 2)
      await other?.untilId(newest + 2)
      slowReading.open()
      await stream.untilId(newest + 2)
      await addSections(store, 1, 3)
      await stream.untilId(newest + 3)
      expect(stream.changeIds()).toEqual(wholeNumbers(newest + 1, newest + 3))
    },
  )

  test('may say so in the address where no header can be set; the header goes before it', async () => {
    const { store, events } = await aListeningService()
    await store.commit(founding)
    const newest = await store.newestChange()
    const byAddress = await anEventStream(`${events}?lastEventId=${newest - 2}`)
    await byAddress.untilId(newest)
    expect(byAddress.changeIds()).toEqual([newest - 1, newest])
    const byBoth = await anEventStream(`${events}?lastEventId=3`, { 'last-event-id': String(newest - 1) })
    await byBoth.untilId(newest)
    expect(byBoth.changeIds()).toEqual([newest])
  })

  test('begins now when the last id lies ahead of all changes', async () => {
    const { store, events } = await aListeningService()
    await store.commit(founding)
    const newest = await store.newestChange()
    const stream = await anEventStream(events, { 'last-event-id': '999999999999999' })
    await stream.untilId(newest)
    expect(stream.events()).toEqual([{ id: newest, event: 'ready', data: { sequence: newest } }])
    await addSections(store, 1)
    await stream.untilId(newest + 1)
    expect(stream.changeIds()).toEqual([newest + 1])
  })

  test('is refused with a last id that none can be', async () => {
    const { service } = await aListeningService()
    const message = 'expected the id of the last event that was received, as it came'
    for (const lastId of ['', 'seven', '-1', '1.5', '0x10', '1e3', '7, 8', '1000000000000000']) {
      const inHeader = await service.get('/v1/events').set('Last-Event-ID', lastId).expect(422)
      expect(inHeader.body, lastId).toMatchObject({
        type: '/problems/invalid-input',
        errors: [{ at: '/last-event-id', in: 'header', message }],
      })
      const query = `lastEventId=${encodeURIComponent(lastId)}`
      const inQuery = await service.get(`/v1/events?${query}`).expect(422)
      expect(inQuery.body.errors, lastId).toEqual([{ at: '/lastEventId', in: 'query', message }])
    }
  })
})

/** Where somebody waits until a test lets them pass. */
function aGate() {
  let open = () => {}
  let reach = () => {}
  const opened = new Promise<void>((resolve) => {
    open = resolve
  })
  const reached = new Promise<void>((resolve) => {
    reach = resolve
  })
  const passed = () => {
    reach()
    return opened
  }
  return { passed, reached, open: () => open() }
}

describe('many streams of events', () => {
  test('cost one reading of the change log a commit, however many they are', async () => {
    const found: number[] = []
    const { service, store, events } = await aListeningService({
      through: (opened) => ({
        ...opened,
        changesAfter: async (...asked) => {
          const entries = await opened.changesAfter(...asked)
          if (entries.length > 0) found.push(entries.length)
          return entries
        },
      }),
    })
    const site = await aSite(service)
    const newest = await store.newestChange()
    const opening = Array.from({ length: 40 }, (_, index) =>
      anEventStream(index % 2 === 0 ? events : `${events}?site=${site.siteId}`),
    )
    const streams = await Promise.all(opening)
    for (const stream of streams) await stream.untilId(newest)
    expect(found).toEqual([])
    await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)
    for (const stream of streams) await stream.untilId(newest + 2)
    expect(found).toEqual([2])
    for (const stream of streams) expect(stream.changeIds()).toEqual([newest + 1, newest + 2])
  })

  test('are taken up to a bound; whoever comes then is told when to try again, and is taken when one has gone', async () => {
    const { service, events, app } = await aListeningService({ eventSettings: { streamsMost: 2 } })
    const sockets: Socket[] = []
    app.server.on('connection', (socket) => sockets.push(socket))
    const first = await anEventStream(events)
    const second = await anEventStream(events)
    await second.untilId(0)
    const answer = await service.get('/v1/events').expect(503)
    expect(answer.headers['retry-after']).toBe('10')
    expect(answer.body).toMatchObject({
      type: '/problems/busy',
      detail: 'As many streams of events are open as are kept at once: 2.',
      retryHelps: true,
    })
    const [ofFirst] = sockets
    if (!ofFirst) throw new Error('nobody has connected')
    const gone = once(ofFirst, 'close')
    first.hangUp()
    await gone
    const third = await anEventStream(events)
    await third.untilId(0)
    expect(third.status).toBe(200)
    await service.get('/v1/events').expect(503)
  })

  test('hold no place for a client that has gone before its stream began', async () => {
    const slowReading = aGate()
    const { events, app } = await aListeningService({
      eventSettings: { streamsMost: 1 },
      through: (opened) => ({
        ...opened,
        newestChange: async () => {
          await slowReading.passed()
          return opened.newestChange()
        },
      }),
    })
    const accepted = once(app.server, 'connection')
    const asked = http.get(events, { agent: false, headers: KEEPER }).on('error', () => {})
    const [socket] = (await accepted) as [Socket]
    await slowReading.reached
    const gone = once(socket, 'close')
    asked.destroy()
    await gone
    slowReading.open()
    const stream = await anEventStream(events)
    expect(stream.status).toBe(200)
    await stream.untilId(0)
  })

  test('go on after a reading that failed', async () => {
    let fails = false
    let hasFailed = () => {}
    const failed = new Promise<void>((resolve) => {
      hasFailed = resolve
    })
    const { store, events } = await aListeningService({
      through: (opened) => ({
        ...opened,
        changesAfter: async (...asked) => {
          if (!fails) return opened.changesAfter(...asked)
          fails = false
          hasFailed()
          throw new Error('the disk did not answer')
        },
      }),
    })
    await store.commit(founding)
    const newest = await store.newestChange()
    const stream = await anEventStream(events)
    await stream.untilId(newest)
    // The first to follow makes the feed look once; that reading must be over.
    await addSections(store, 1, 1)
    await stream.untilId(newest + 1)
    fails = true
    await addSections(store, 1, 2)
    await failed
    await addSections(store, 1, 3)
    await stream.untilId(newest + 3)
    expect(stream.changeIds()).toEqual(wholeNumbers(newest + 1, newest + 3))
  })
})

/** The hall in a file, with a service on it, and a second connection past the service: another process. */
async function aServiceOnFile(eventSettings: Partial<EventSettings>) {
  const file = `${aFolder()}/hall.sqlite`
  const listening = await aListeningService({ file, eventSettings })
  await listening.store.commit(founding)
  return { file, ...listening }
}

/** As many changes as no system holds for a client that does not read, written by somebody else. */
function writeMuch(file: string): number {
  const raw = openSqliteDatabase({ file, migrate: false })
  try {
    raw
      .prepare(
        `WITH RECURSIVE n(k) AS (SELECT 1 UNION ALL SELECT k + 1 FROM n WHERE k < 6000)
         INSERT INTO change_log (site_id, audit_sequence, at, resource_kind, resource_id, what)
         SELECT '${siteId}', 1, ${NOW}, 'much', k || '-' || replace(hex(zeroblob(2000)), '00', 'ab'), 'changed' FROM n`,
      )
      .run()
    return Number(raw.prepare('SELECT max(sequence) FROM change_log').pluck().get())
  } finally {
    raw.close()
  }
}

describe('changes that another process has written to the same file', () => {
  test('are found by looking from time to time, and told like others', async () => {
    const { file, store, events } = await aServiceOnFile({ pollMilliseconds: 10 })
    const newest = await store.newestChange()
    const stream = await anEventStream(events)
    await stream.untilId(newest)
    const other = await openSqliteStore({ file })
    onTestFinished(() => other.close())
    await addSections(other, 3)
    await stream.untilId(newest + 3)
    await addSections(store, 1, 4)
    await stream.untilId(newest + 4)
    await addSections(other, 1, 5)
    await stream.untilId(newest + 5)
    expect(stream.changeIds()).toEqual(wholeNumbers(newest + 1, newest + 5))
    expect(stream.events().at(-1)?.data).toMatchObject({ resourceId: 'section_n5', what: 'added' })
  })
})

describe('a client that does not take what it is sent', () => {
  test('is cut off when too much waits for it, and misses nothing when it comes back', async () => {
    const { file, store, events, app } = await aServiceOnFile({
      pollMilliseconds: 10,
      waitingBytesMost: 65_536,
    })
    const newest = await store.newestChange()
    const accepted = once(app.server, 'connection')
    const slow = await anEventStream(events)
    const [socket] = (await accepted) as [Socket]
    await slow.untilId(newest)
    slow.pause()
    const cut = once(socket, 'close')
    const last = writeMuch(file)
    await cut
    slow.resume()
    expect(await slow.ended).toBe('broken')
    const taken = slow.changeIds()
    expect(taken.length).toBeLessThan(last - newest)

    const lastTaken = taken.at(-1) ?? newest
    const back = await anEventStream(events, { 'last-event-id': String(lastTaken) })
    await back.until(() => back.events().at(-1)?.event === 'ready')
    expect([...taken, ...back.changeIds()]).toEqual(wholeNumbers(newest + 1, last))
  })

  test('is waited for while it catches up, but not for ever', async () => {
    const { file, events, app } = await aServiceOnFile({ keepAliveMilliseconds: 10, keepAlivesMissedMost: 3 })
    const last = writeMuch(file)
    const accepted = once(app.server, 'connection')
    const slow = await anEventStream(events, { 'last-event-id': '0' })
    slow.pause()
    const [socket] = (await accepted) as [Socket]
    await once(socket, 'close')
    slow.resume()
    expect(await slow.ended).toBe('broken')
    expect(slow.changeIds().length).toBeLessThan(last)
  })
})

describe('when the service stops', () => {
  test('every stream is ended at once, also of a client that takes nothing, and no other begins', async () => {
    const { file, stop, events, app } = await aServiceOnFile({})
    const last = writeMuch(file)
    const live = await anEventStream(events)
    await live.untilId(last)
    const accepted = once(app.server, 'connection')
    const stuck = await anEventStream(events, { 'last-event-id': '0' })
    stuck.pause()
    const [socket] = (await accepted) as [Socket]
    const cut = once(socket, 'close')
    await stop()
    expect(await live.ended).toBe('whole')
    await cut
    stuck.resume()
    expect(await stuck.ended).toBe('broken')
    await expect(anEventStream(events)).rejects.toThrow('ECONNREFUSED')
  })
})
