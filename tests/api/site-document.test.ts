import { readFileSync } from 'node:fs'
import type { Response } from 'supertest'
import { describe, expect, test } from 'vitest'
import { documentFileName } from '../../src/api/site-document/document-file-name.ts'
import { ActorId, SiteId } from '../../src/domain/ids.ts'
import { type SetupKind, SetupWriteSchema, setupKinds } from '../../src/domain/setup.ts'
import { Site } from '../../src/domain/site.ts'
import { Conflict } from '../../src/store/store.ts'
import { KEEPER, keeperCalled } from './a-keeper.ts'
import { aService, idOf, NOW, type Service } from './a-service.ts'
import { aDinner, aGamesNight, aSite } from './a-site.ts'
import { type ADocument, aSiteDocument } from './a-site-document.ts'

const importDocument = (service: Service, document: object) => service.post('/v1/sites/import', document)

const exported = async (service: Service, siteId: string): Promise<ADocument> =>
  (await service.get(`/v1/sites/${siteId}/export`).expect(200)).body

/** Everything but when it was written. */
const withoutTime = ({ exportedAt, ...document }: ADocument): Omit<ADocument, 'exportedAt'> => document

/** Each fault as one line, with where it is. */
const faultsOf = (response: Response): string[] => {
  const errors: { at: string; message: string }[] = response.body.errors
  return errors.map(({ at, message }) => `${at}: ${message}`)
}

async function faultsWith(change: (document: ADocument) => void): Promise<string[]> {
  const service = await aService()
  const document = aSiteDocument()
  change(document)
  const answer = await importDocument(service, document).expect(422)
  expect(answer.body).toMatchObject({ type: '/problems/invalid-input', retryHelps: false })
  await expectNothingThere(service)
  return faultsOf(answer)
}

async function expectNothingThere({ store }: Service): Promise<void> {
  expect((await store.sites({ limit: 10, after: null })).items).toEqual([])
  expect((await store.recordedState(SiteId.parse('site_alder-a'))).size).toBe(0)
}

describe('a site that is exported', () => {
  test('comes back the same when it is imported into an empty database and exported again', async () => {
    const service = await aService()
    const answer = await importDocument(service, aSiteDocument()).expect(201)
    expect(answer.headers.location).toBe('/v1/sites/site_alder-a')
    expect(answer.body).toEqual({
      written: true,
      site: aSiteDocument().site,
      counts: {
        ...{ sections: 2, exits: 1, passages: 2, rooms: 2, storagePlaces: 1, furnishings: 2, tools: 1 },
        ...{ equipment: 3, layouts: 2, people: 2, personDetails: 1, shifts: 2, closures: 1 },
        ...{ stockChanges: 3, observations: 1, rateSet: 1, policy: 1 },
      },
    })
    const document = await exported(service, 'site_alder-a')
    expect(document).toEqual(aSiteDocument())

    const other = await aService()
    await importDocument(other, document).expect(201)
    expect(await exported(other, 'site_alder-a')).toEqual(document)
  })

  test('comes back the same when nothing has been added to it yet', async () => {
    const service = await aService()
    const siteId = idOf(await service.post('/v1/sites', { name: 'New Hall', zone: 'Europe/London' }))
    const document = await exported(service, siteId)
    expect(document).toMatchObject({ formatVersion: 1, leftOut: [], rooms: [], rateSet: null })
    expect(document.exportedAt).toBe('2026-11-23T15:00:00+00:00')
    const other = await aService()
    await importDocument(other, document).expect(201)
    expect(await exported(other, siteId)).toEqual(document)
  })

  test('has no bookings in it, and books as before where it was imported', async () => {
    const service = await aService()
    const site = await aSite(service)
    await service.post(`${site.path}/bookings`, aGamesNight(site)).expect(201)
    const decided = await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)
    const document = await exported(service, site.siteId)
    expect(JSON.stringify(document)).not.toContain('Harvest supper')

    const other = await aService()
    await importDocument(other, document).expect(201)
    await other.post(`${site.path}/bookings`, aGamesNight(site)).expect(201)
    const again = await other.post(`${site.path}/bookings`, aDinner(site)).expect(201)
    expect(again.body.decision.before.neededSeconds).toBe(decided.body.decision.before.neededSeconds)
  })

  test('is one JSON file to save, named by the hall and the day', async () => {
    const service = await aService()
    await importDocument(service, aSiteDocument()).expect(201)
    const { headers } = await service.get('/v1/sites/site_alder-a/export').expect(200)
    expect(headers['content-disposition']).toBe('attachment; filename="turnwright-alder-row-2026-11-23.json"')
    expect(headers['content-type']).toBe('application/json; charset=utf-8')
    const named = (name: string) =>
      documentFileName(Site.parse({ id: 'site_x1', name, zone: 'Pacific/Auckland' }), NOW)
    expect(named('Sällskap "N:o 7"/../Hall;')).toBe('turnwright-sallskap-n-o-7-hall-2026-11-24.json')
    expect(named('集会所')).toBe('turnwright-site-x1-2026-11-24.json')
    expect(named('x'.repeat(120))).toHaveLength('turnwright--2026-11-24.json'.length + 60)
  })

  test('that is not there is told as such', async () => {
    const service = await aService()
    const answer = await service.get('/v1/sites/site_nowhere/export').expect(404)
    expect(answer.body.type).toBe('/problems/unknown-resource')
  })

  test('leaves out what is out of use, and what names it, and says so', async () => {
    const service = await aService()
    await importDocument(service, aSiteDocument()).expect(201)
    await retire(service, 'furnishing', 'furnishing_chair-a')
    await retire(service, 'person', 'person_ottoline-a')
    const document = await exported(service, 'site_alder-a')
    expect(document.furnishings.map(({ id }) => id)).toEqual(['furnishing_table-a'])
    expect(document.storagePlaces[0]).toMatchObject({ depthOrder: ['furnishing_table-a'] })
    expect(document.layouts[0]).toMatchObject({
      furnishings: [{ furnishingId: 'furnishing_table-a', count: 2 }],
    })
    expect(document.observations[0]).toMatchObject({ pieces: [] })
    expect(document.stockChanges.map(({ id }) => id)).toEqual(['stockchange_mops-a', 'stockchange_screen-a'])
    expect(document.shifts.map(({ id }) => id)).toEqual(['shift_crew-a'])
    expect(document.personDetails).toEqual([])
    expect(document.leftOut).toEqual([
      'storage_yard-a names furnishing furnishing_chair-a, out of use: left out there',
      'layout_banquet-a names furnishing furnishing_chair-a, out of use: left out there',
      'shift_once-a names person person_ottoline-a, out of use: left out whole',
      'stockchange_chairs-a names furnishing furnishing_chair-a, out of use: left out whole',
      'observation_sunday-a names furnishing furnishing_chair-a, out of use: left out there',
    ])

    const other = await aService()
    await importDocument(other, document).expect(201)
    expect({ ...(await exported(other, 'site_alder-a')), leftOut: document.leftOut }).toEqual(document)
  })

  test('leaves out in turn what names a row that was left out', async () => {
    const service = await aService()
    await importDocument(service, aSiteDocument()).expect(201)
    await retire(service, 'section', 'section_south-a')
    await retire(service, 'room', 'room_hall-a')
    const document = await exported(service, 'site_alder-a')
    expect(document.rooms).toEqual([])
    expect(document.layouts).toEqual([])
    expect(document.observations).toEqual([])
    expect(document.storagePlaces[0]).toMatchObject({ routes: [] })
    expect(document.leftOut).toContain(
      'room_parlour-a names section section_south-a, out of use: left out whole',
    )
    await importDocument(await aService(), document).expect(201)
  })
})

/** As a hall does over the years, whatever still names it. */
async function retire({ store }: Service, kind: SetupKind, id: string): Promise<void> {
  const siteId = SiteId.parse('site_alder-a')
  const stored = await store.setupRow(siteId, kind, id)
  if (!stored) throw new Error(`no ${kind} ${id}`)
  await store.commit({
    siteId,
    planningVersionExpected: null,
    actorId: ActorId.parse('actor_test'),
    action: 'retire',
    reason: null,
    at: NOW,
    setup: [SetupWriteSchema.parse({ kind, before: stored.row, after: stored.row, retire: true })],
  })
}

describe('an import', () => {
  test('that is a dry run says what there would be and writes nothing', async () => {
    const service = await aService()
    const answer = await service.post('/v1/sites/import?dryRun=true', aSiteDocument()).expect(200)
    expect(answer.body).toMatchObject({ written: false, counts: { rooms: 2, personDetails: 1 } })
    expect(answer.headers.location).toBeUndefined()
    await expectNothingThere(service)
    await service.post('/v1/sites/import?dryRun=maybe', aSiteDocument()).expect(422)
  })

  test('sent twice under one Idempotency-Key founds one site and answers twice', async () => {
    const service = await aService()
    const send = () => importDocument(service, aSiteDocument()).set('idempotency-key', 'moving-day')
    const first = await send().expect(201)
    const second = await send().expect(201)
    expect(second.body).toEqual(first.body)
    expect(second.headers['idempotent-replayed']).toBe('true')
    expect((await service.traces('site_alder-a')).audit).toBe(1)
  })

  test('stands in the audit as one entry, without names of people', async () => {
    const service = await aService()
    await importDocument(service, aSiteDocument()).set(keeperCalled('actor_ada')).expect(201)
    const audit = await service.store.audit(SiteId.parse('site_alder-a'), { limit: 10, after: null })
    expect(audit.items).toMatchObject([{ action: 'import-site', actorId: 'actor_ada' }])
    expect(JSON.stringify(audit)).toContain('person_ottoline-a')
    expect(JSON.stringify(audit)).not.toContain('Ottoline Reed')
  })

  test('of the document in the manual founds the site it shows', async () => {
    const manual = readFileSync('docs/site-document.md', 'utf8')
    const [, text] = /```json\n([\s\S]*?)```/.exec(manual) ?? []
    const service = await aService()
    const document = JSON.parse(text ?? '')
    await importDocument(service, document).expect(201)
    expect(await exported(service, 'site_alder')).toMatchObject(document)
    const [, table] = /(\| member[\s\S]*?)\n\n/.exec(manual) ?? []
    for (const member of Object.keys(aSiteDocument())) expect(table).toContain(`\`${member}\``)
  })

  test('takes a document of which everything that has a default is left out', async () => {
    const service = await aService()
    const document = aSiteDocument()
    delete document.exportedAt
    delete document.leftOut
    document.site = { id: 'site_alder-a', name: 'Alder Row', zone: 'America/Chicago' }
    document.exits = [{ id: 'exit_east-a', name: 'East', sectionId: 'section_north-a', clearWidthMetres: 1 }]
    await importDocument(service, document).expect(201)
    const after = await exported(service, 'site_alder-a')
    expect(after.site).toMatchObject({ units: 'metric', codeTables: 'us' })
    expect(after.exits[0]).toMatchObject({ wallMetres: null, position: null })
  })

  test('reads moments by the wall clock where they have no offset, and puts rows in the order of their ids', async () => {
    const service = await aService()
    const document = aSiteDocument()
    document.closures[0] = { ...document.closures[0]!, fromAt: '2026-12-01T08:00', toAt: '2026-12-03T18:00' }
    document.rooms.reverse()
    document.stockChanges.reverse()
    await importDocument(service, document).expect(201)
    expect(await exported(service, 'site_alder-a')).toEqual(aSiteDocument())
  })

  test('takes moments that are in the first hours of 2000, and the last of 2099, somewhere else only', async () => {
    const service = await aService()
    const document = aSiteDocument()
    document.stockChanges[0]!.fromAt = '1999-12-31T18:00:00-06:00'
    document.stockChanges[0]!.toAt = '2099-12-31T18:00:00-06:00'
    await importDocument(service, document).expect(201)
    expect(await exported(service, 'site_alder-a')).toEqual(document)
    document.stockChanges[0]!.fromAt = '1999-12-31T17:59:59-06:00'
    const answer = await importDocument(service, document).expect(422)
    expect(faultsOf(answer)).toEqual(['/stockChanges/0/fromAt: the year 1999 is outside 2000 to 2099'])
  })

  test('keeps text as text: markup, right to left, beyond the basic plane, what a spreadsheet would compute', async () => {
    const texts = [
      '<script>alert(1)</script>&amp;"\'',
      'אולם הצפון (שמאל)',
      'قاعة الشمال 12',
      'Hall 🪑🪑 𝔥𝔞𝔩𝔩 é',
      '=HYPERLINK("x")',
      '+1-2@SUM(A1)',
      "Robert'); DROP TABLE room;--",
      '../../$env%00',
    ]
    const service = await aService()
    const document = aSiteDocument()
    document.sections.push(
      ...texts.map((name, index) => ({
        id: `section_text${index}-a`,
        name,
        areaSquareMetres: 10,
        floorKind: 'tile',
      })),
    )
    document.personDetails[0]!.name = texts[0]
    document.site.name = texts[1]!
    document.closures[0]!.reason = texts[4]
    await importDocument(service, document).expect(201)
    expect(await exported(service, 'site_alder-a')).toEqual(document)
  })

  test('takes a hall with 2,000 places in a layout', async () => {
    const service = await aService()
    const document = aSiteDocument()
    document.furnishings[0]!.countOwned = 2_000
    document.layouts.push({
      id: 'layout_rows-a',
      roomId: 'room_hall-a',
      name: 'Rows',
      kind: 'worship',
      seats: 2_000,
      furnishings: [{ furnishingId: 'furnishing_chair-a', count: 2_000 }],
      equipment: [],
      placements: Array.from({ length: 2_000 }, (_, index) => ({
        furnishingId: 'furnishing_chair-a',
        xMetres: 1 + (index % 50) * 0.36,
        yMetres: 1 + Math.floor(index / 50) * 0.17,
        rotationDegrees: (index * 7.5) % 360,
      })),
      amplified: false,
    })
    await importDocument(service, document).expect(201)
    expect(await exported(service, 'site_alder-a')).toEqual(document)
  })
})

describe('a document that cannot be imported', () => {
  test('of another version is told which version is read, and nothing else', async () => {
    expect(
      await faultsWith((document) => {
        document.formatVersion = 2
        document.rooms = []
      }),
    ).toEqual(['/formatVersion: the document is of format version 2; this program reads version 1'])
  })

  test('of another kind is told what is missing', async () => {
    const service = await aService()
    const answer = await importDocument(service, { hello: 'hall' }).expect(422)
    expect(faultsOf(answer)).toEqual(
      expect.arrayContaining([
        '/format: is missing; it must be "turnwright-site"',
        '/rooms: is missing; it must be a list',
        '/hello: no such field here',
      ]),
    )
    expect(faultsOf(await importDocument(service, []).expect(422))).toEqual([': must be an object'])
  })

  test('says for each row what is missing, of the wrong kind, out of bounds or unknown, all at once', async () => {
    expect(
      await faultsWith((document) => {
        delete document.sections[0]!.areaSquareMetres
        document.exits[0]!.clearWidthMetres = -1
        document.rooms[1]!.colour = 'green'
        document.rooms[0]!.floor = { kind: 'circle' }
        document.furnishings[1]!.countOwned = '15'
        document.people[0]!.siteId = 'site_alder-a'
        document.personDetails[0]!.email = 'no address'
        document.closures[0]!.toAt = 'tomorrow'
        document.shifts[1]!.times = { kind: 'once', startsAt: '2027-03-14T02:30', endsAt: '2027-03-14T09:00' }
        document.site.zone = 'Mars/Olympus'
        document.policy.workMost = 0
      }),
    ).toEqual([
      '/site/zone: expected an IANA time zone such as America/Chicago',
      '/sections/0/areaSquareMetres: is missing; it must be a number',
      '/exits/0/clearWidthMetres: must be 0.3 or more',
      expect.stringMatching(/^\/rooms\/0\/floor\/kind: /),
      '/rooms/1/colour: no such field here',
      '/furnishings/1/countOwned: must be a whole number',
      '/people/0/siteId: no such field here',
      '/policy/workMost: must be 1 or more',
      '/personDetails/0/email: must be an e-mail address',
      '/closures/0/toAt: expected a date and time such as 2026-11-28T17:00 or 2026-11-28T17:00:00-06:00',
    ])
  })

  test('names each member that is missing, whichever it is', async () => {
    const service = await aService()
    const members = Object.keys(aSiteDocument()).filter((name) => !['exportedAt', 'leftOut'].includes(name))
    for (const member of members) {
      const document = aSiteDocument()
      Reflect.deleteProperty(document, member)
      const [fault] = faultsOf(await importDocument(service, document).expect(422))
      expect(fault).toMatch(new RegExp(`^/${member}: is missing`))
    }
    await expectNothingThere(service)
  })

  test('names a time that its zone does not have', async () => {
    expect(
      await faultsWith((document) => {
        document.closures[0]!.fromAt = '2026-03-08T02:30'
      }),
    ).toEqual([expect.stringMatching(/^\/closures\/0\/fromAt: 02:30 does not exist on 2026-03-08/)])
  })

  test('names ids that come twice', async () => {
    expect(
      await faultsWith((document) => {
        document.rooms.push({ ...document.rooms[0]!, name: 'Another', acousticallyJoinedRoomIds: [] })
        document.personDetails.push({ ...document.personDetails[0]! })
      }),
    ).toEqual([
      '/rooms/2/id: room_hall-a is the id of /rooms/0 already',
      '/personDetails/1/personId: person_ottoline-a is the id of /personDetails/0 already',
    ])
  })

  test('names every reference that leads nowhere, once', async () => {
    const elsewhere: [string, (document: ADocument) => void][] = []
    const add = (fault: string, change: (document: ADocument) => void) => elsewhere.push([fault, change])
    add('/exits/0/sectionId: there is no section section_gone in this document', (document) => {
      document.exits[0]!.sectionId = 'section_gone'
    })
    add('/rooms/0/homeLayoutId: there is no layout layout_gone in this document', (document) => {
      document.rooms[0]!.homeLayoutId = 'layout_gone'
    })
    add('/rooms/0/acousticallyJoinedRoomIds/0: there is no room room_gone in this document', (document) => {
      document.rooms[0]!.acousticallyJoinedRoomIds = ['room_gone']
    })
    add(
      '/storagePlaces/0/depthOrder/1: there is no furnishing furnishing_gone in this document',
      (document) => {
        document.storagePlaces[0]!.depthOrder = ['furnishing_chair-a', 'furnishing_gone']
      },
    )
    add(
      '/storagePlaces/0/routes/0/passageIds/0: there is no passage passage_gone in this document',
      (document) => {
        document.storagePlaces[0]!.routes = [
          { roomId: 'room_hall-a', distanceMetres: 5, passageIds: ['passage_gone'] },
        ]
      },
    )
    add(
      '/furnishings/1/storagePlaceId: there is no storage place storage_gone in this document',
      (document) => {
        document.furnishings[1]!.storagePlaceId = 'storage_gone'
      },
    )
    add('/tools/0/furnishingIds/0: there is no furnishing furnishing_gone in this document', (document) => {
      document.tools[0]!.furnishingIds = ['furnishing_gone']
    })
    add('/equipment/1/standInIds/0: there is no equipment equipment_gone in this document', (document) => {
      document.equipment[1]!.standInIds = ['equipment_gone']
    })
    add('/shifts/1/crew/personId: there is no person person_gone in this document', (document) => {
      document.shifts[1]!.crew = { kind: 'person', personId: 'person_gone' }
    })
    add('/closures/0/exitIds/0: there is no exit exit_gone in this document', (document) => {
      document.closures[0]!.exitIds = ['exit_gone']
    })
    add('/stockChanges/1/of/toolId: there is no tool tool_gone in this document', (document) => {
      document.stockChanges[1]!.of = { kind: 'tool', toolId: 'tool_gone', count: 1 }
    })
    add('/personDetails/0/personId: there is no person person_gone in this document', (document) => {
      document.personDetails[0]!.personId = 'person_gone'
    })
    const faults = await faultsWith((document) => {
      for (const [, change] of elsewhere) change(document)
    })
    expect(faults.filter((fault) => fault.includes('there is no ')).sort()).toEqual(
      elsewhere.map(([fault]) => fault).sort(),
    )
  })

  test('is held against the rules that hold for rows added one by one, all of it at once', async () => {
    expect(
      await faultsWith((document) => {
        document.furnishings[1]!.countOwned = 1
        document.rooms[1]!.sectionIds = ['section_south-a', 'section_south-a']
        document.closures[0]!.toAt = document.closures[0]!.fromAt
        document.people[1]!.skills = ['lift-operator']
      }),
    ).toEqual([
      '/rooms/1/sectionIds/1: section section_south-a is listed twice; list it once',
      '/layouts/0/furnishings/0/count: the layout asks for 2 round tables, the site owns 1',
      '/people/1/skills/0: lift-operator is for adults only by the policy of the site; a minor cannot have it',
      '/closures/0/toAt: the end must be after the start',
    ])
  })

  test('with more faults than anybody reads is told the first hundred and how many more', async () => {
    const service = await aService()
    const document = aSiteDocument()
    const rows = (count: number) => Array.from({ length: count }, () => ({ id: 'section_x' }))
    // Each lacks three fields.
    const some = await importDocument(service, { ...document, sections: rows(50) }).expect(422)
    expect(some.body.errors).toHaveLength(100)
    expect(some.body.detail).toBe(
      '/sections/0/name: is missing; it must be text (and 149 more; the first 100 are listed)',
    )
    const many = await importDocument(service, { ...document, sections: rows(5_000) }).expect(422)
    expect(many.body.errors).toHaveLength(100)
    expect(many.body.detail).toContain('(and at least 999 more; the first 100 are listed)')
  })

  test('with lists longer than any hall needs is told the bound, whatever stands in them', async () => {
    const service = await aService()
    const zeros = (count: number) => Array.from({ length: count }, () => 0)
    const document = aSiteDocument()
    document.layouts[0]!.placements = zeros(500_000)
    const answer = await importDocument(service, { ...document, shifts: zeros(500_000) }).expect(422)
    expect(faultsOf(answer)).toEqual([
      '/layouts/0/placements: has 500000 entries; 5000 is the most',
      '/shifts: has 500000 entries; 10000 is the most',
    ])
  })

  test('is refused over 5 MiB, and read just under it', async () => {
    const service = await aService()
    const text = JSON.stringify(aSiteDocument())
    const padded = (bytes: number) =>
      service.app.inject({
        method: 'POST',
        url: '/v1/sites/import',
        headers: { host: 'localhost', 'content-type': 'application/json', ...KEEPER },
        payload: text + ' '.repeat(bytes - Buffer.byteLength(text)),
      })
    const over = await padded(5_242_881)
    expect(over.statusCode).toBe(413)
    expect(over.json()).toMatchObject({
      type: '/problems/too-large',
      detail: 'The document is over 5 MiB (5242880 bytes).',
    })
    await expectNothingThere(service)
    expect((await padded(5_242_880)).statusCode).toBe(201)
  })

  test('is not echoed at length, however long its names are', async () => {
    const name = 'n'.repeat(100_000)
    const faults = await faultsWith((document) => {
      document.rooms[0]![name] = 1
    })
    expect(faults).toEqual(['/rooms/0: no such field here: a name of 100000 characters'])
  })
})

describe('what is there already', () => {
  test('is never overwritten: the site', async () => {
    const service = await aService()
    await importDocument(service, aSiteDocument()).expect(201)
    const before = await service.store.recordedState(SiteId.parse('site_alder-a'))
    const changed = aSiteDocument()
    changed.site.name = 'Somebody else'
    for (const path of ['/v1/sites/import', '/v1/sites/import?dryRun=true']) {
      const answer = await service.post(path, changed).expect(409)
      expect(answer.body).toMatchObject({
        type: '/problems/already-there',
        detail: '/site/id: there is a site site_alder-a already. Nothing was overwritten.',
      })
    }
    expect(await service.store.recordedState(SiteId.parse('site_alder-a'))).toEqual(before)
  })

  test('is never overwritten: rows of another site', async () => {
    const service = await aService()
    await importDocument(service, aSiteDocument('a')).expect(201)
    const copy = aSiteDocument('b')
    copy.rooms[1]!.id = 'room_parlour-a'
    copy.rooms[0]!.acousticallyJoinedRoomIds = []
    copy.storagePlaces[0]!.routes = []
    copy.tools[0]!.id = 'tool_mop-a'
    copy.stockChanges = []
    for (const path of ['/v1/sites/import', '/v1/sites/import?dryRun=true']) {
      const answer = await service.post(path, copy).expect(409)
      expect(faultsOf(answer)).toEqual([
        '/rooms/1/id: there is room_parlour-a in another site already',
        '/tools/0/id: there is tool_mop-a in another site already',
      ])
      expect(answer.body.detail).toBe(
        '/rooms/1/id: there is room_parlour-a in another site already (and 1 more of the document). Nothing was overwritten.',
      )
    }
    expect(await service.store.planningVersion(SiteId.parse('site_alder-b'))).toBeNull()
    expect(withoutTime(await exported(service, 'site_alder-a'))).toEqual(withoutTime(aSiteDocument('a')))
  })

  test('of two imports of one site at the same time one founds it, the other is told', async () => {
    const service = await aService()
    const second = aSiteDocument()
    second.sections.push({ id: 'section_more-a', name: 'More', areaSquareMetres: 5, floorKind: 'tile' })
    const answers = await Promise.all([
      importDocument(service, aSiteDocument()),
      importDocument(service, second),
    ])
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409])
  })

  test('a refusal of the database for another cause is told as one to try again', async () => {
    const service = await aService({
      store: (store) => ({
        ...store,
        commit: () => Promise.reject(new Conflict('Another process is writing')),
      }),
    })
    const answer = await importDocument(service, aSiteDocument()).expect(409)
    expect(answer.body).toMatchObject({ type: '/problems/conflict', retryHelps: true })
    await expectNothingThere(service)
  })
})

test('the export is read at one version, or not at all', async () => {
  let version = 0
  const service = await aService({
    store: (store) => ({ ...store, planningVersion: async () => ++version }),
  })
  await importDocument(service, aSiteDocument()).expect(201)
  const answer = await service.get('/v1/sites/site_alder-a/export').expect(409)
  expect(answer.body.detail).toBe('Others changed the site 5 times while it was being read.')
})

describe('the JSON Schema of the document', () => {
  test('names every member, refuses unknown ones, and shows moments as text', async () => {
    const service = await aService()
    const answer = await service.get('/schemas/site-document.json').expect(200)
    expect(answer.headers['content-type']).toBe('application/schema+json; charset=utf-8')
    const { $defs } = JSON.parse(answer.text)
    const schema = $defs.SiteDocument
    expect(Object.keys(schema.properties).sort()).toEqual(Object.keys(aSiteDocument()).sort())
    expect(schema.additionalProperties).toBe(false)
    expect(schema.properties.closures.items).toMatchObject({ additionalProperties: false })
    expect(schema.properties.closures.items.properties.fromAt.type).toBe('string')
    expect(schema.properties.closures.items.properties).not.toHaveProperty('siteId')
  })

  test('stands in the OpenAPI document too', async () => {
    const service = await aService()
    const { paths } = (await service.get('/openapi.json').expect(200)).body
    const { schema } = paths['/v1/sites/import'].post.requestBody.content['application/json']
    expect(schema.$ref).toMatch(/^#\/components\/schemas\/SiteDocument/)
  })
})

test('the document has every kind of the set-up in it', () => {
  const rows = Object.values(aSiteDocument()).flat()
  const prefixes = new Set(rows.map((row) => String(Object(row).id).split('_')[0]))
  expect(prefixes.size).toBeGreaterThanOrEqual(setupKinds.length)
})
