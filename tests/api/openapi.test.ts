import { beforeAll, describe, expect, test } from 'vitest'
import { buildApp } from '../../src/api/app.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import { inProcessDecider } from '../../src/worker/in-process-decider.ts'
import { keptParts } from './a-keeper.ts'
import { aService, NOW } from './a-service.ts'
import { type ASite, aDinner, addTheRest, aGamesNight, aSite } from './a-site.ts'

interface Shape {
  readonly $ref?: string
  readonly type?: string | readonly string[]
  readonly format?: string
  readonly description?: string
  readonly required?: readonly string[]
  readonly properties?: Readonly<Record<string, Shape>>
  readonly items?: Shape
  readonly anyOf?: readonly Shape[]
  readonly oneOf?: readonly Shape[]
  readonly allOf?: readonly Shape[]
  readonly const?: unknown
  readonly enum?: readonly unknown[]
}
interface Operation {
  readonly summary?: string
  readonly description?: string
  readonly tags?: readonly string[]
  readonly parameters?: readonly { readonly name: string; readonly in: string }[]
  readonly requestBody?: { readonly content: Record<string, { readonly schema: Shape }> }
  readonly responses: Readonly<
    Record<string, { readonly content?: Record<string, { readonly schema: Shape }> }>
  >
}
interface Document {
  readonly openapi: string
  readonly info: { readonly title: string; readonly version: string }
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>
  readonly components: { readonly schemas: Readonly<Record<string, Shape>> }
}

let text: string
let document: Document
const served: string[] = []
beforeAll(async () => {
  // Read once: nothing below changes it.
  const store = await openSqliteStore({ file: ':memory:' })
  const app = buildApp({
    store,
    decider: inProcessDecider(store),
    clock: () => NOW,
    newId: (prefix) => `${prefix}_x`,
    log: false,
    ...keptParts,
  })
  app.addHook('onRoute', ({ method, url }) => {
    for (const one of [method].flat()) if (one !== 'HEAD') served.push(`${one} ${url}`)
  })
  const answer = await app.inject({ url: '/openapi.json', headers: { host: 'localhost' } })
  text = answer.body
  document = answer.json()
  await app.close()
  store.close()
})

describe('the OpenAPI document', () => {
  test('is of version 3.1 and says what it is for', () => {
    expect(document.openapi).toMatch(/^3\.1\.\d$/)
    expect(document.info).toMatchObject({ title: 'Turnwright', version: '1' })
  })

  test('has every route that the service takes, and none that it does not', () => {
    const documented = Object.entries(document.paths).flatMap(([path, operations]) =>
      Object.keys(operations).map(
        (method) => `${method.toUpperCase()} ${path.replace(/\{([a-z]+)\}/gi, ':$1')}`,
      ),
    )
    expect(served.length).toBeGreaterThan(90)
    expect(documented.sort()).toEqual(served.sort())
  })

  test('describes each operation with a summary, a tag, its path parameters and its answers', () => {
    for (const [path, operations] of Object.entries(document.paths)) {
      for (const [method, operation] of Object.entries(operations)) {
        const name = `${method} ${path}`
        expect(operation.summary, name).toBeTruthy()
        expect(operation.tags?.length, name).toBe(1)
        const inPath = (operation.parameters ?? []).filter((one) => one.in === 'path').map((one) => one.name)
        expect(inPath.sort(), name).toEqual([...path.matchAll(/\{([a-z]+)\}/gi)].map(([, id]) => id).sort())
        expect(
          Object.keys(operation.responses).some((status) => /^2\d\d$/.test(status)),
          name,
        ).toBe(true)
        if (path.startsWith('/v1/')) {
          expect(operation.responses['4XX']?.content, name).toHaveProperty(['application/problem+json'])
        }
        if (method === 'post' || method === 'patch') expect(operation.requestBody, name).toBeDefined()
      }
    }
  })

  test('says why a policy and a rate set are neither changed nor retired', () => {
    for (const segment of ['policies', 'rate-sets']) {
      const operations = document.paths[`/v1/sites/{site}/${segment}/{id}`] ?? {}
      expect(Object.keys(operations)).toEqual(['get'])
      expect(operations.get?.description).toMatch(/takes its place and the old one is retired/)
    }
  })

  test('says of the turns that a write affects that they now stand otherwise', () => {
    for (const segment of ['furnishings', 'rooms', 'policies', 'rate-sets', 'shifts', 'closures']) {
      const made = document.paths[`/v1/sites/{site}/${segment}`]?.post?.responses['201']
      const schema = resolved(made?.content?.['application/json']?.schema)
      expect(schema.properties).toHaveProperty('decision')
      expect(schema.required).toContain('decision')
    }
    const { affected } = document.components.schemas.Decision?.properties ?? {}
    expect(affected?.description).toMatch(/turns that now stand otherwise.*: in verdict, readiness or plan/i)
  })

  test('says how a rate is put back to its default', () => {
    const add = document.paths['/v1/sites/{site}/rate-sets']?.post
    const body = resolved(add?.requestBody?.content['application/json']?.schema)
    expect(body.properties?.rates?.description).toContain(
      'null in place of a number, or of a list, puts it back',
    )
    const speed = body.properties?.rates?.properties?.walkingMetresPerSecond
    expect(speed?.anyOf?.map(({ type }) => type)).toEqual(['number', 'null'])
  })

  test('says that erasing details needs no version and answers nothing', () => {
    const erase = document.paths['/v1/sites/{site}/people/{id}/details']?.delete
    expect(Object.keys(erase?.responses ?? {})).toContain('204')
    expect((erase?.parameters ?? []).map(({ name }) => name).sort()).toEqual(['id', 'site'])
  })

  test('lets a change leave everything out, and gives nothing that is left out a default', () => {
    for (const [path, { patch }] of Object.entries(document.paths)) {
      if (!patch) continue
      const body = resolved(patch.requestBody?.content['application/json']?.schema)
      expect(body.required ?? [], path).toEqual([])
      for (const [name, field] of Object.entries(body.properties ?? {}))
        expect(field, `${path} ${name}`).not.toHaveProperty('default')
    }
  })

  test('refers only to schemas that are there, and holds none that nothing refers to', () => {
    const referred = new Set(
      [...text.matchAll(/"#\/components\/schemas\/([A-Za-z]+)"/g)].map(([, name]) => name),
    )
    expect([...referred].sort()).toEqual(Object.keys(document.components.schemas).sort())
  })

  test('shows every moment as text with a date and time', () => {
    const { Booking } = document.components.schemas
    for (const name of ['doorsAt', 'startsAt', 'endsAt', 'clearAt']) {
      expect(resolved(Booking?.properties?.[name]), name).toMatchObject({
        type: 'string',
        format: 'date-time',
      })
    }
    expect(text).not.toContain('"maximum":4102444800000')
  })

  test('agrees with what the service answers', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { rateSetId, shiftId } = await addTheRest(service, site)
    await service.post(`${site.path}/bookings`, aGamesNight(site)).expect(201)
    const { booking } = (await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)).body
    for (const [path, url] of reads(site, booking)) {
      const answer = await service.get(url).expect(200)
      const schema = document.paths[path]?.get?.responses['200']?.content?.['application/json']?.schema
      expect(mismatches(schema, answer.body, path)).toEqual([])
    }
    for (const [path, url] of [
      ['/v1/sites/{site}', site.path],
      ['/v1/sites/{site}/rate-sets/{id}', `${site.path}/rate-sets/${rateSetId}`],
      ['/v1/sites/{site}/rate-sets/in-force', `${site.path}/rate-sets/in-force`],
    ] as const) {
      const answer = await service.get(url).expect(200)
      expect(mismatches(okSchema(path, 'get'), answer.body, path)).toEqual([])
    }
    for (const [segment, id] of [
      ['rooms', site.hallId],
      ['shifts', shiftId],
    ] as const) {
      const path = `/v1/sites/{site}/${segment}/{id}`
      const url = `${site.path}/${segment}/${id}`
      const changed = await service.patch(url, { name: 'Other' }).set('If-Match', '"1"').expect(200)
      expect(mismatches(okSchema(path, 'patch'), changed.body, path)).toEqual([])
    }
    const retired = await service.delete(`${site.path}/shifts/${shiftId}`).set('If-Match', '"2"').expect(200)
    expect(mismatches(okSchema('/v1/sites/{site}/shifts/{id}', 'delete'), retired.body, 'retired')).toEqual(
      [],
    )
    const crowd = {
      ...aDinner(site),
      startsAt: '2026-12-05T17:00',
      endsAt: '2026-12-05T20:00',
      headcount: 121,
    }
    const risk = { takeRisk: { why: 'They bring a chair.' } }
    const taken = (await service.post(`${site.path}/bookings`, { ...crowd, ...risk }).expect(201)).body
      .booking
    const warnings = await service.get(`${site.path}/warnings`).expect(200)
    expect(warnings.body.items).toHaveLength(1)
    for (const [path, body] of [
      ['/v1/sites/{site}/warnings', warnings.body],
      ['/v1/sites/{site}/turns/{id}', (await service.get(`${site.path}/turns/${taken.turnId}`)).body],
    ] as const)
      expect(mismatches(okSchema(path, 'get'), body, path)).toEqual([])
    const made = document.paths['/v1/sites/{site}/bookings']?.post?.responses
    const refused = await service.post(`${site.path}/bookings`, aDinner(site)).expect(409)
    const problem = made?.['4XX']?.content?.['application/problem+json']?.schema
    expect(mismatches(problem, refused.body, 'problem')).toEqual([])
    const dry = await service.post(`${site.path}/bookings?dryRun=true`, aDinner(site)).expect(200)
    expect(mismatches(made?.['200']?.content?.['application/json']?.schema, dry.body, 'dry run')).toEqual([])
  })

  test('finds an answer that is not as documented', () => {
    const schema = { type: 'object', required: ['a', 'b'], properties: { a: { type: 'string' } } }
    expect(mismatches(schema, { a: 5 }, 'x')).toEqual(['x.b is missing', 'x.a is not a string'])
  })
})

const okSchema = (path: string, method: string): Shape | undefined =>
  document.paths[path]?.[method]?.responses['200']?.content?.['application/json']?.schema

const reads = (site: ASite, booking: { id: string; turnId: string }): [string, string][] => [
  ['/v1/sites', '/v1/sites'],
  ...[
    'sections',
    'rooms',
    'layouts',
    'furnishings',
    'storage-places',
    'equipment',
    'people',
    'shifts',
    'policies',
    'exits',
    'passages',
    'tools',
    'closures',
    'stock-changes',
    'observations',
    'rate-sets',
  ].map((segment): [string, string] => [`/v1/sites/{site}/${segment}`, `${site.path}/${segment}`]),
  ['/v1/sites/{site}/bookings', `${site.path}/bookings`],
  ['/v1/sites/{site}/bookings/{id}', `${site.path}/bookings/${booking.id}`],
  ['/v1/sites/{site}/bookings/{id}/decision', `${site.path}/bookings/${booking.id}/decision`],
  ['/v1/sites/{site}/rooms/{room}/timeline', `${site.path}/rooms/${site.hallId}/timeline`],
  ['/v1/sites/{site}/turns', `${site.path}/turns`],
  ['/v1/sites/{site}/turns/{id}', `${site.path}/turns/${booking.turnId}`],
  ['/v1/sites/{site}/turns/{id}/hands-curve', `${site.path}/turns/${booking.turnId}/hands-curve`],
  ['/v1/sites/{site}/turns/{id}/what-would-help', `${site.path}/turns/${booking.turnId}/what-would-help`],
  ['/v1/sites/{site}/audit', `${site.path}/audit`],
]

const resolved = (schema: Shape | undefined): Shape =>
  schema?.$ref
    ? { ...document.components.schemas[schema.$ref.split('/').at(-1) ?? ''], ...withoutRef(schema) }
    : (schema ?? {})

const withoutRef = ({ $ref: _ref, ...rest }: Shape): Shape => rest

/** Where a value is not as its schema says: types, required fields, constants and alternatives. */
function mismatches(schema: Shape | undefined, value: unknown, at: string): string[] {
  if (schema === undefined) return [`${at} is not documented`]
  const shape = resolved(schema)
  const alternatives = shape.anyOf ?? shape.oneOf
  if (alternatives) {
    const tried = alternatives.map((one) => mismatches(one, value, at))
    return tried.some((faults) => faults.length === 0) ? [] : (tried[0] ?? [])
  }
  if (shape.const !== undefined && shape.const !== value) return [`${at} is not ${String(shape.const)}`]
  if (shape.enum && !shape.enum.includes(value)) return [`${at} is not one of ${shape.enum.join(', ')}`]
  const all = (shape.allOf ?? []).flatMap((one) => mismatches(one, value, at))
  if (!isOfType(shape.type, value)) return [`${at} is not a ${shape.type}`]
  if (Array.isArray(value))
    return value.flatMap((item, index) => mismatches(shape.items, item, `${at}[${index}]`))
  if (typeof value !== 'object' || value === null) return all
  const fields = new Map(Object.entries(value))
  return [
    ...all,
    ...(shape.required ?? []).flatMap((name) => (fields.has(name) ? [] : [`${at}.${name} is missing`])),
    ...Object.entries(shape.properties ?? {}).flatMap(([name, property]) =>
      fields.has(name) ? mismatches(property, fields.get(name), `${at}.${name}`) : [],
    ),
  ]
}

function isOfType(type: Shape['type'], value: unknown): boolean {
  if (type === undefined) return true
  if (typeof type !== 'string') return type.some((one) => isOfType(one, value))
  if (type === 'null') return value === null
  if (type === 'array') return Array.isArray(value)
  if (type === 'object') return typeof value === 'object' && value !== null && !Array.isArray(value)
  if (type === 'integer') return Number.isInteger(value)
  return typeof value === type
}
