import request from 'supertest'
import { describe, expect, test } from 'vitest'
import { KEEPER } from './a-keeper.ts'
import { aService, type Service } from './a-service.ts'
import { type ASite, aChair, aDimmer, aDinner, aProjector, aSite, aWeeklyShift, everyDay } from './a-site.ts'

interface Case {
  readonly what: string
  readonly to: string
  readonly body: (site: ASite) => object
  /** JSON pointer of the first fault, and words of its message. */
  readonly at: string
  readonly says: string | RegExp
}

const booking = (what: string, fields: object, at: string, says: Case['says']): Case => ({
  what,
  to: 'bookings',
  body: (site) => ({ ...aDinner(site), ...fields }),
  at,
  says,
})

const bookings: Case[] = [
  booking('without a title', { title: undefined }, '/title', /^is missing; it must be text$/),
  booking(
    'without a start',
    { startsAt: undefined },
    '/startsAt',
    /^is missing; expected a date and time as text/,
  ),
  booking('with a number for a title', { title: 7 }, '/title', 'must be text'),
  booking(
    'with half of a character',
    { title: 'Supper \ud83c' },
    '/title',
    'half of a character (U+D83C alone)',
  ),
  booking('with a NUL for a title', { title: '\0' }, '/title', 'control character (U+0000)'),
  booking('with two lines for a title', { title: 'One\nTwo' }, '/title', 'control character (U+000A)'),
  booking(
    'with a title written backwards',
    { title: '\u202eyraM' },
    '/title',
    'turns the text around (U+202E)',
  ),
  booking('with a title nobody sees', { title: '\u200b\u2060' }, '/title', 'one character that can be seen'),
  booking('with a field nobody knows', { colour: 'red' }, '/colour', 'no such field'),
  booking('with an id of its own', { id: 'booking_mine' }, '/id', 'no such field'),
  booking('for zero guests', { headcount: 0 }, '/headcount', /^must be 1 or more$/),
  booking('for minus five guests', { headcount: -5 }, '/headcount', /^must be 1 or more$/),
  booking('for half a guest', { headcount: 1.5 }, '/headcount', /^must be a whole number$/),
  booking(
    'for more guests than can be counted',
    { headcount: 1e300 },
    '/headcount',
    /^must be at most 20000$/,
  ),
  booking('for a million guests', { headcount: 1_000_000 }, '/headcount', /^must be at most 20000$/),
  booking('for guests written as text', { headcount: '100' }, '/headcount', /^must be a whole number$/),
  booking(
    'in a room that is not there',
    { roomId: 'room_nowhere' },
    '/roomId',
    'there is no room room_nowhere',
  ),
  booking('in a room whose id is none', { roomId: 'nowhere' }, '/roomId', 'room_…'),
  booking(
    'in a layout that is not there',
    { layoutId: 'layout_none' },
    '/layoutId',
    'there is no layout layout_none',
  ),
  booking('that ends before it starts', { endsAt: '2026-11-28T16:59' }, '/endsAt', 'after the start'),
  booking('that ends when it starts', { endsAt: '2026-11-28T17:00' }, '/endsAt', 'after the start'),
  booking('that is clear before it ends', { clearAt: '2026-11-28T19:59' }, '/clearAt', 'after the end'),
  booking(
    'whose doors open after the start',
    { doorsAt: '2026-11-28T17:01' },
    '/doorsAt',
    'before the start',
  ),
  booking('of 32 days', { endsAt: '2026-12-30T17:00' }, '/clearAt', '31 days'),
  booking('in the year 9999', { startsAt: '9999-01-01T10:00' }, '/startsAt', 'year 9999'),
  booking('in the year 1999', { startsAt: '1999-12-31T23:59Z' }, '/startsAt', 'year 1999'),
  booking('on the 30th of February', { startsAt: '2027-02-30T10:00' }, '/startsAt', 'no such date'),
  booking('at 25 o’clock', { startsAt: '2027-02-20T25:00' }, '/startsAt', 'no such date or time'),
  booking('on a day without a time', { startsAt: '2027-02-20' }, '/startsAt', 'date and time'),
  booking('at a time in words', { startsAt: 'next Friday' }, '/startsAt', 'date and time'),
  booking('at a time as a number', { startsAt: 1_795_000_000_000 }, '/startsAt', 'date and time as text'),
  booking(
    'at a local time that does not exist',
    { startsAt: '2027-03-14T02:30', endsAt: '2027-03-14T05:00' },
    '/startsAt',
    /02:30 does not exist on 2027-03-14 in America\/Chicago.*02:00 to 03:00.*Write 03:30.*-05:00/,
  ),
  {
    what: 'in a layout of another room',
    to: 'bookings',
    body: (site) => ({ ...aDinner(site), layoutId: site.worshipId }),
    at: '/layoutId',
    says: 'of another room',
  },
]

const layout = (what: string, fields: (site: ASite) => object, at: string, says: Case['says']): Case => ({
  what,
  to: 'layouts',
  body: (site) => ({ roomId: site.hallId, name: 'Wrong', kind: 'other', ...fields(site) }),
  at,
  says,
})
const chairs = (count: number) => (site: ASite) => ({ furnishings: [{ furnishingId: site.chairId, count }] })
const lights = (setting: object) => (site: ASite) => ({
  equipment: [{ equipmentId: site.lightsId, setting }],
})
const projector = (setting: object) => (site: ASite) => ({
  roomId: site.upperRoomId,
  equipment: [{ equipmentId: site.projectorId, setting }],
})

const layouts: Case[] = [
  layout('of 10,000 chairs', chairs(10_000), '/furnishings/0/count', /^must be at most 5000$/),
  layout('of zero chairs', chairs(0), '/furnishings/0/count', /^must be 1 or more$/),
  layout('of minus one chair', chairs(-1), '/furnishings/0/count', /^must be 1 or more$/),
  layout(
    'of more chairs than there are',
    chairs(241),
    '/furnishings/0/count',
    /asks for 241 stacking chairs.*owns 240/,
  ),
  layout(
    'of chairs listed twice',
    (s) => ({ furnishings: [1, 2].map((count) => ({ furnishingId: s.chairId, count })) }),
    '/furnishings/1/furnishingId',
    'listed twice',
  ),
  layout(
    'of pieces that are not there',
    () => ({ furnishings: [{ furnishingId: 'furnishing_none', count: 1 }] }),
    '/furnishings/0/furnishingId',
    'no furnishing furnishing_none',
  ),
  layout(
    'of 10,000 kinds of pieces',
    (s) => ({ furnishings: Array.from({ length: 10_000 }, () => ({ furnishingId: s.chairId, count: 1 })) }),
    '/furnishings',
    /^list at most 100$/,
  ),
  layout(
    'with a dimmer in its dead band',
    lights({ kind: 'level', levelPercent: 3 }),
    '/equipment/0/setting',
    /3 %.*off or 10 to 100 %/,
  ),
  layout(
    'with a dimmer at 5 %',
    lights({ kind: 'level', levelPercent: 5 }),
    '/equipment/0/setting',
    /5 %.*off or 10 to 100 %/,
  ),
  layout(
    'with a dimmer in a named state',
    lights({ kind: 'state', state: 'dim' }),
    '/equipment/0/setting',
    'named state',
  ),
  layout(
    'with a state the device has not',
    projector({ kind: 'state', state: 'film' }),
    '/equipment/0/setting',
    /film is none of its states.*off, slides/,
  ),
  layout(
    'with a level for a device of states',
    projector({ kind: 'level', levelPercent: 50 }),
    '/equipment/0/setting',
    'no levels',
  ),
  layout(
    'with a device of another room',
    (s) => ({ equipment: [{ equipmentId: s.projectorId, setting: { kind: 'state', state: 'off' } }] }),
    '/equipment/0/equipmentId',
    'Projector is not in Long Hall',
  ),
  layout('in a room that is not there', () => ({ roomId: 'room_none' }), '/roomId', 'no room room_none'),
]

const states = (fields: object) => (site: ASite) => {
  const device = aProjector([site.upperId])
  return { ...device, control: { ...device.control, ...fields } }
}
const oneWay = [{ from: 'off', to: 'slides', seconds: 60, hands: 1 }]

const setUp: Case[] = [
  {
    what: 'a site in no zone',
    to: '',
    body: () => ({ name: 'X', zone: 'Mars/Base' }),
    at: '/zone',
    says: 'IANA',
  },
  {
    what: 'a section of no size',
    to: 'sections',
    body: () => ({ name: 'X', areaSquareMetres: 0, floorKind: 'tile' }),
    at: '/areaSquareMetres',
    says: /^must be more than 0$/,
  },
  {
    what: 'a room of an unknown section',
    to: 'rooms',
    body: () => ({ name: 'X', sectionIds: ['section_none'] }),
    at: '/sectionIds/0',
    says: 'no section section_none',
  },
  {
    what: 'a room listing a section twice',
    to: 'rooms',
    body: (s) => ({ name: 'X', sectionIds: [s.northId, s.northId] }),
    at: '/sectionIds/1',
    says: 'listed twice',
  },
  {
    what: 'a room whose home layout is not there',
    to: 'rooms',
    body: (s) => ({ name: 'X', sectionIds: [s.northId], homeLayoutId: 'layout_none' }),
    at: '/homeLayoutId',
    says: 'no layout',
  },
  {
    what: 'a room whose home layout is of another',
    to: 'rooms',
    body: (s) => ({ name: 'X', sectionIds: [s.northId], homeLayoutId: s.gamesId }),
    at: '/homeLayoutId',
    says: 'another room',
  },
  {
    what: 'a room whose hours overlap',
    to: 'rooms',
    body: (s) => ({
      name: 'X',
      sectionIds: [s.northId],
      openingHours: [
        { weekdays: [5], opensLocal: '18:00', closesLocal: '02:00' },
        { weekdays: [6], opensLocal: '01:00', closesLocal: '12:00' },
      ],
    }),
    at: '/openingHours/1',
    says: 'overlap',
  },
  {
    what: 'a room whose Sunday night runs into Monday',
    to: 'rooms',
    body: (s) => ({
      name: 'X',
      sectionIds: [s.northId],
      openingHours: [
        { weekdays: [1], opensLocal: '00:00', closesLocal: '12:00' },
        { weekdays: [7], opensLocal: '20:00', closesLocal: '01:00' },
      ],
    }),
    at: '/openingHours/1',
    says: 'overlap',
  },
  {
    what: 'a storage place with a way to nowhere',
    to: 'storage-places',
    body: () => ({ name: 'X', routes: [{ roomId: 'room_none', distanceMetres: 5 }] }),
    at: '/routes/0/roomId',
    says: 'no room',
  },
  {
    what: 'a furnishing kept nowhere',
    to: 'furnishings',
    body: () => aChair('storage_none'),
    at: '/storagePlaceId',
    says: 'no storage place',
  },
  {
    what: 'a furnishing on trolleys that are not there',
    to: 'furnishings',
    body: (s) => ({ ...aChair(s.storageId), trolley: null }),
    at: '/trolley',
    says: 'how many the site owns',
  },
  {
    what: '10,000 pieces of a kind',
    to: 'furnishings',
    body: (s) => ({ ...aChair(s.storageId), countOwned: 10_000 }),
    at: '/countOwned',
    says: /^must be at most 5000$/,
  },
  {
    what: 'a device without a way back',
    to: 'equipment',
    body: states({ transitions: oneWay }),
    at: '/control/transitions',
    says: 'no way from slides to off',
  },
  {
    what: 'a device without a way there',
    to: 'equipment',
    body: states({ transitions: [] }),
    at: '/control/transitions',
    says: 'no way from off to slides',
  },
  {
    what: 'a device with a way to an unknown state',
    to: 'equipment',
    body: states({ transitions: [{ ...oneWay[0], to: 'film' }] }),
    at: '/control/transitions/0/to',
    says: 'film is none of the states',
  },
  {
    what: 'a device at home in an unknown state',
    to: 'equipment',
    body: states({ homeState: 'film' }),
    at: '/control/homeState',
    says: 'film is none',
  },
  {
    what: 'a device that asks for more skills than can be told apart',
    to: 'equipment',
    body: states({
      transitions: Array.from({ length: 26 }, (_, index) => ({
        ...oneWay[0],
        ...(index % 2 === 0 ? {} : { from: 'slides', to: 'off' }),
        skill: `skill-${index}`,
      })),
    }),
    at: '/control',
    says: '24 is the most',
  },
  {
    what: 'a device of an unknown kind',
    to: 'equipment',
    body: states({ kind: 'steam' }),
    at: '/control/kind',
    says: /./,
  },
  {
    what: 'a dimmer at home in its dead band',
    to: 'equipment',
    body: (s) => {
      const d = aDimmer([s.northId])
      return { ...d, control: { ...d.control, homeSetting: { kind: 'level', levelPercent: 3 } } }
    },
    at: '/control/homeSetting',
    says: 'off or 10 to 100 %',
  },
  {
    what: 'a dimmer upside down',
    to: 'equipment',
    body: (s) => {
      const d = aDimmer([s.northId])
      return { ...d, control: { ...d.control, lowestPercent: 90, highestPercent: 20 } }
    },
    at: '/control/highestPercent',
    says: 'under the lowest',
  },
  {
    what: 'a person without an address for mail',
    to: 'people',
    body: () => ({ name: 'X', adult: true, email: 'nowhere' }),
    at: '/email',
    says: /^must be an e-mail address$/,
  },
  {
    what: 'a shift of an unknown person',
    to: 'shifts',
    body: () => ({ ...aWeeklyShift(1), crew: { kind: 'person', personId: 'person_none' } }),
    at: '/crew/personId',
    says: 'no person',
  },
  {
    what: 'a shift of no hands',
    to: 'shifts',
    body: () => aWeeklyShift(0),
    at: '/crew/hands',
    says: /^must be 1 or more$/,
  },
  {
    what: 'a shift that ends before it starts',
    to: 'shifts',
    body: () => ({
      ...aWeeklyShift(1),
      times: { kind: 'once', startsAt: '2026-11-28T10:00', endsAt: '2026-11-28T09:00' },
    }),
    at: '/times/endsAt',
    says: 'end after',
  },
  {
    what: 'a shift in the year 9999',
    to: 'shifts',
    body: () => ({ ...aWeeklyShift(1), times: { ...aWeeklyShift(1).times, lastDate: '9999-12-31' } }),
    at: '/times/lastDate',
    says: 'year 9999',
  },
  {
    what: 'a shift on the 31st of June',
    to: 'shifts',
    body: () => ({ ...aWeeklyShift(1), times: { ...aWeeklyShift(1).times, firstDate: '2026-06-31' } }),
    at: '/times/firstDate',
    says: 'a day that exists',
  },
  {
    what: 'a shift on an eighth day of the week',
    to: 'shifts',
    body: () => ({
      ...aWeeklyShift(1),
      times: { ...aWeeklyShift(1).times, weekdays: [...everyDay.slice(0, 6), 8] },
    }),
    at: '/times/weekdays/6',
    says: /^must be at most 7$/,
  },
  {
    what: 'a closure that ends before it starts',
    to: 'closures',
    body: (s) => ({
      sectionIds: [s.northId],
      fromAt: '2026-12-02T00:00',
      toAt: '2026-12-01T00:00',
      reason: 'X',
    }),
    at: '/toAt',
    says: 'after the start',
  },
  {
    what: 'a closure for a reason nobody sees',
    to: 'closures',
    body: (s) => ({
      sectionIds: [s.northId],
      fromAt: '2026-12-01T00:00',
      toAt: '2026-12-02T00:00',
      reason: '\u2066\u2069',
    }),
    at: '/reason',
    says: 'turns the text around',
  },
  {
    what: 'a device of no kind',
    to: 'equipment',
    body: states({ kind: undefined }),
    at: '/control/kind',
    says: /^is missing; it must be one of "states", "level"$/,
  },
  {
    what: 'a section of no floor kind',
    to: 'sections',
    body: () => ({ name: 'X', areaSquareMetres: 5 }),
    at: '/floorKind',
    says: /^is missing; it must be one of "sealed-wood", "vinyl"/,
  },
  {
    what: 'a closure of an unknown section',
    to: 'closures',
    body: () => ({
      sectionIds: ['section_none'],
      fromAt: '2026-12-01T00:00',
      toAt: '2026-12-02T00:00',
      reason: 'X',
    }),
    at: '/sectionIds/0',
    says: 'no section',
  },
  {
    what: 'a policy whose hands are worth more than they are',
    to: 'policies',
    body: () => ({ effectiveHands: [{ hands: 2, effective: 3 }] }),
    at: '/effectiveHands/0/effective',
    says: 'cannot be worth more',
  },
  {
    what: 'a policy of pace zero',
    to: 'policies',
    body: () => ({ paceFactor: 0 }),
    at: '/paceFactor',
    says: /^must be 0.2 or more$/,
  },
]

describe('bad input is refused with what is wrong and where, nothing is written, and the service goes on', () => {
  test.each([
    ['bookings', bookings],
    ['layouts', layouts],
    ['the rest of the set-up', setUp],
  ])('%s', async (_name, cases) => {
    const service = await aService()
    const site = await aSite(service)
    const before = await service.traces(site.siteId)
    for (const { what, to, body, at, says } of cases) {
      const path = to === '' ? '/v1/sites' : `${site.path}/${to}`
      const answer = await service.post(path, body(site))
      expect(answer.status, `${what}: ${answer.text}`).toBe(422)
      expect(answer.headers['content-type'], what).toContain('application/problem+json')
      expect(answer.body, what).toMatchObject({ type: '/problems/invalid-input', status: 422 })
      expect(answer.body.errors[0], what).toMatchObject({ at, in: 'body' })
      expect(answer.body.errors[0].message, what).toMatch(says)
    }
    expect(await service.traces(site.siteId)).toEqual(before)
    await goesOn(service, site)
  })

  test('a level of 10 % and off, which the dimmer can hold, are taken', async () => {
    const service = await aService()
    const site = await aSite(service)
    for (const setting of [{ kind: 'level', levelPercent: 10 }, { kind: 'off' }]) {
      const equipment = [{ equipmentId: site.lightsId, setting }]
      await service
        .post(`${site.path}/layouts`, { roomId: site.hallId, name: 'Dim', kind: 'other', equipment })
        .expect(201)
    }
  })

  test('every fault is told, not only the first', async () => {
    const service = await aService()
    const site = await aSite(service)
    const answer = await service.post(`${site.path}/bookings`, { headcount: 0, startsAt: 5 }).expect(422)
    const places = answer.body.errors.map(({ at }: { at: string }) => at)
    expect(places).toEqual(['/title', '/roomId', '/layoutId', '/headcount', '/startsAt', '/endsAt'])
  })

  test('a local time that occurs twice is the first of the two', async () => {
    const service = await aService()
    const site = await aSite(service)
    const night = { startsAt: '2027-11-07T01:30', endsAt: '2027-11-07T04:00', doorsAt: '2027-11-07T01:30' }
    const dry = await service
      .post(`${site.path}/bookings?dryRun=true`, { ...aDinner(site), ...night })
      .expect(200)
    expect(dry.body.decision.before.dueAt).toBe('2027-11-07T01:30:00-05:00')
  })

  test('text that is no JSON, no body, and another type of body are refused', async () => {
    const service = await aService()
    const site = await aSite(service)
    const before = await service.traces(site.siteId)
    const send = (type: string, text: string) =>
      request(service.app.server)
        .post(`${site.path}/bookings`)
        .set(KEEPER)
        .set('Content-Type', type)
        .send(text)
    for (const text of ['{', '{"title": }', 'null and void', '', '{"__proto__": {"a": 1}}']) {
      const answer = await send('application/json', text).expect(400)
      expect(answer.body.type).toBe('/problems/malformed-json')
    }
    const misplaced = await send('application/json', '{"title": }').expect(400)
    // What the parser says differs between versions of Node; all of them name the place.
    expect(misplaced.body.detail).toMatch(/^The body is not valid JSON: .*(token '?}|position 10)/)
    for (const text of ['null', '[]', '7', '"text"']) {
      const answer = await send('application/json', text).expect(422)
      expect(answer.body.errors[0].at).toBe('')
    }
    await send('text/plain', 'a booking, please').expect(415)
    await send('application/xml', '<booking/>').expect(415)
    const none = await request(service.app.server).post(`${site.path}/bookings`).set(KEEPER).expect(422)
    expect(none.body.type).toBe('/problems/invalid-input')
    expect(await service.traces(site.siteId)).toEqual(before)
    await goesOn(service, site)
  })

  test('a body with bytes that are no characters is refused; characters of any script are kept as they came', async () => {
    const service = await aService()
    const site = await aSite(service)
    const send = (body: Buffer) =>
      fetch(`${base}${site.path}/bookings`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', ...KEEPER },
        body,
      })
    const base = await service.app.listen({ port: 0, host: '127.0.0.1' })
    const [head = '', tail = ''] = JSON.stringify({ ...aDinner(site), title: '@' }).split('@')
    const named = (title: Buffer) => Buffer.concat([Buffer.from(head), title, Buffer.from(tail)])
    const before = await service.traces(site.siteId)
    for (const bytes of [[0xff], [0xc3], [0xed, 0xa0, 0x80]]) {
      const answer = await send(named(Buffer.from(bytes)))
      expect(answer.status).toBe(400)
      expect(await answer.json()).toMatchObject({
        type: '/problems/malformed-json',
        detail: 'The body is not UTF-8: it has bytes that are no characters.',
      })
    }
    expect(await service.traces(site.siteId)).toEqual(before)
    const title = 'סעודה · می‌خواهم · 宴会 · 👩‍👩‍👧'
    const made = await send(named(Buffer.from(title)))
    expect(made.status).toBe(201)
    expect(await made.json()).toMatchObject({ booking: { title } })
  })

  test('a body over 1 MiB is refused, one just under it is read', async () => {
    const service = await aService()
    const site = await aSite(service)
    const before = await service.traces(site.siteId)
    const padded = (bytes: number) => {
      const text = JSON.stringify({ ...aDinner(site), note: '' })
      return text.replace('"note":""', `"note":"${'x'.repeat(bytes - text.length)}"`)
    }
    const send = (text: string) =>
      request(service.app.server)
        .post(`${site.path}/bookings`)
        .set(KEEPER)
        .set('Content-Type', 'application/json')
        .send(text)
    const over = await send(padded(1_048_577)).expect(413)
    expect(over.body).toMatchObject({ type: '/problems/too-large', status: 413 })
    const under = await send(padded(1_048_576)).expect(422)
    expect(under.body.errors[0]).toMatchObject({ at: '/note' })
    expect(await service.traces(site.siteId)).toEqual(before)
    await goesOn(service, site)
  })

  test('unknown ids and addresses are not found; a wrong method says which are taken', async () => {
    const service = await aService()
    const site = await aSite(service)
    const unknown = ['/v1/sites/site_none', '/v1/sites/7', '/v1/sites/site_none/rooms']
    const inSite = [
      'rooms/room_none',
      'bookings/booking_none',
      'bookings/7',
      'turns/turn_none',
      'rooms/room_none/timeline',
    ]
    for (const path of [...unknown, ...inSite.map((rest) => `${site.path}/${rest}`)]) {
      const answer = await service.get(path).expect(404)
      expect(answer.body.type, path).toBe('/problems/unknown-resource')
    }
    expect((await service.get('/v1/nothing').expect(404)).body.type).toBe('/problems/unknown-route')
    expect(
      (await service.post('/v1/sites/site_none/rooms', { name: 'X', sectionIds: ['section_a'] })).status,
    ).toBe(404)
    const wrong = await service.delete(`${site.path}/rooms`).expect(405)
    expect(wrong.body.type).toBe('/problems/method-not-allowed')
    expect(wrong.headers.allow).toContain('POST')
    expect((await service.get('/v1/%ZZ').expect(400)).body.type).toBe('/problems/bad-url')
  })

  test('what is of one site is not found through another', async () => {
    const service = await aService()
    const here = await aSite(service)
    const there = await aSite(service)
    const { booking: made } = (await service.post(`${here.path}/bookings`, aDinner(here))).body
    await service.get(`${there.path}/bookings/${made.id}`).expect(404)
    await service.get(`${there.path}/turns/${made.turnId}`).expect(404)
    await service.get(`${there.path}/rooms/${here.hallId}`).expect(404)
    const across = await service.post(`${there.path}/bookings`, aDinner(here)).expect(422)
    expect(across.body.errors.map(({ at }: { at: string }) => at)).toEqual(['/roomId', '/layoutId'])
  })

  test('questions that cannot be read are refused with their place', async () => {
    const service = await aService()
    const site = await aSite(service)
    const cases = [
      ['rooms?limit=0', '/limit'],
      ['rooms?limit=201', '/limit'],
      ['rooms?limit=ten', '/limit'],
      ['rooms?cursor=%21%21', '/cursor'],
      ['rooms?cursor=', '/cursor'],
      ['rooms?colour=red', '/colour'],
      ['bookings?from=yesterday', '/from'],
      ['bookings?from=2026-11-28&to=2026-11-27', '/to'],
      ['bookings?from=9999-01-01', '/from'],
      ['bookings?from=2027-03-14T02:30', '/from'],
      ['bookings?room=kitchen', '/room'],
      ['turns?to=2026-02-30', '/to'],
      [`rooms/${site.hallId}/timeline?from=2026-01-01&to=2026-12-31`, '/to'],
    ]
    for (const [question, at] of cases) {
      const answer = await service.get(`${site.path}/${question}`)
      expect(answer.status, question).toBe(422)
      expect(answer.body.errors[0], question).toMatchObject({ at, in: 'query' })
    }
    await service.get('/?week=soon').expect(422)
  })

  test('a cursor that was made up is refused or ends the list; it never breaks the service', async () => {
    const service = await aService()
    const site = await aSite(service)
    const lists = ['rooms', 'bookings', 'turns', 'warnings', 'audit', 'policies']
    for (const text of ['x', '{"a":1}', '["1","2"]', '99999999999999999999', "' or 1=1 --"]) {
      const cursor = Buffer.from(text).toString('base64url')
      for (const list of lists) {
        const answer = await service.get(`${site.path}/${list}?cursor=${cursor}`)
        expect([200, 422], `${list} ${text}: ${answer.text}`).toContain(answer.status)
      }
      expect([200, 422]).toContain((await service.get(`/v1/sites?cursor=${cursor}`)).status)
    }
  })
})

async function goesOn(service: Service, site: ASite): Promise<void> {
  await service.get('/healthz').expect(200)
  await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)
}
