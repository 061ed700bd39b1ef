/** Nearly valid documents: what comes back is a site or a sentence, never a crash, and never half a site. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { SiteId } from '../../src/domain/ids.ts'
import { KEEPER } from './a-keeper.ts'
import { aService, type Service } from './a-service.ts'
import { aSiteDocument } from './a-site-document.ts'

type Place = readonly (string | number)[]

/** Every member and entry of a value, the whole left out. */
function placesIn(value: unknown, at: Place = []): Place[] {
  if (typeof value !== 'object' || value === null) return []
  const steps = Array.isArray(value) ? [...value.keys()] : Object.keys(value)
  return steps.flatMap((step) => [[...at, step], ...placesIn(Reflect.get(value, step), [...at, step])])
}

const valueAt = (document: object, place: Place): unknown =>
  place.reduce<unknown>((value, step) => Reflect.get(Object(value), step), document)

function put(document: object, place: Place, value: unknown): void {
  const parent = valueAt(document, place.slice(0, -1))
  const step = place.at(-1)
  // What was there a change ago may be gone.
  if (step !== undefined && typeof parent === 'object' && parent !== null) Reflect.set(parent, step, value)
}

function takeOut(document: object, place: Place): void {
  const parent = valueAt(document, place.slice(0, -1))
  const step = place.at(-1)
  if (Array.isArray(parent) && typeof step === 'number') parent.splice(step, 1)
  else if (step !== undefined && typeof parent === 'object' && parent !== null)
    Reflect.deleteProperty(parent, step)
}

/** Written as a number that JSON takes and no computer can hold. */
const BEYOND_NUMBERS = '@beyond'

const junk = fc.oneof(
  fc.constantFrom<unknown[]>(
    null,
    true,
    0,
    -1,
    1.5,
    1e300,
    -1e-300,
    Number.MAX_SAFE_INTEGER,
    BEYOND_NUMBERS,
    '',
    ' ',
    'NaN',
    'Infinity',
    '-0',
    '=1+1',
    'room_nowhere',
    'section_north',
    '<b>bold</b>',
    'ok',
    'שלום',
    '🪑🪑',
    'half \ud83e of a chair',
    'turned \u202e round',
    'two\nlines',
    '9999-12-31',
    '0000-01-01',
    '2026-02-30',
    '2026-11-28T17:00:00-06:00',
    '2000-01-01T00:00:00Z',
    '2027-03-14T02:30',
    '24:00',
    [],
    {},
    [[]],
    [null],
  ),
  fc.jsonValue({ maxDepth: 6 }),
)

type Change = (document: object) => void

const somewhere = fc.nat().map((number) => (document: object) => {
  const places = placesIn(document)
  return places[number % places.length] ?? []
})

const change: fc.Arbitrary<Change> = fc.oneof(
  somewhere.map((at) => (document: object) => takeOut(document, at(document))),
  fc.tuple(somewhere, junk).map(
    ([at, value]) =>
      (document: object) =>
        put(document, at(document), value),
  ),
  fc.tuple(somewhere, fc.string({ maxLength: 12 }), junk).map(([at, name, value]) => (document: object) => {
    put(document, [...at(document), name === '__proto__' ? 'proto' : name], value)
  }),
  // One value in the place of another: mostly of its kind, and wrong.
  fc.tuple(somewhere, somewhere).map(([to, from]) => (document: object) => {
    put(document, to(document), structuredClone(valueAt(document, from(document))))
  }),
  fc.tuple(somewhere, somewhere).map(([one, other]) => (document: object) => {
    const [a, b] = [one(document), other(document)]
    const [valueA, valueB] = [valueAt(document, a), valueAt(document, b)]
    put(document, a, structuredClone(valueB))
    put(document, b, structuredClone(valueA))
  }),
  // An entry twice.
  fc.tuple(somewhere).map(([at]) => (document: object) => {
    const place = at(document)
    const list = valueAt(document, place.slice(0, -1))
    if (Array.isArray(list)) list.push(structuredClone(valueAt(document, place)))
  }),
  somewhere.map((at) => (document: object) => {
    const place = at(document)
    put(document, place, [valueAt(document, place)])
  }),
)

/** Changes after which a document is often still right. */
const smallChange: fc.Arbitrary<Change> = fc
  .tuple(somewhere, fc.double({ min: 0.5, max: 1.5, noNaN: true }))
  .map(([at, factor]) => (document: object) => {
    const place = at(document)
    const value = valueAt(document, place)
    if (typeof value === 'number') put(document, place, Number.isInteger(value) ? value + 1 : value * factor)
    if (typeof value === 'string') put(document, place, ` ${value}`)
    if (typeof value === 'boolean') put(document, place, !value)
    if (Array.isArray(value)) value.reverse()
    if (value === null) takeOut(document, place)
  })

const changes = fc.oneof(
  fc.array(fc.oneof(change, smallChange), { minLength: 1, maxLength: 3 }),
  fc.array(smallChange, { minLength: 1, maxLength: 2 }),
)

const bodyText = (document: object): string =>
  JSON.stringify(document).replaceAll(`"${BEYOND_NUMBERS}"`, '1e999')

const post = (service: Service, payload: string) =>
  service.app.inject({
    method: 'POST',
    url: '/v1/sites/import',
    headers: { host: 'localhost', 'content-type': 'application/json', ...KEEPER },
    payload,
  })

const siteCount = async ({ store }: Service): Promise<number> => {
  let count = 0
  let after: string | null = null
  do {
    const page: { items: readonly unknown[]; nextAfter: string | null } = await store.sites({
      limit: 200,
      after,
    })
    count += page.items.length
    after = page.nextAfter
  } while (after !== null)
  return count
}

/** The document as an export would have it: rows by id, text without blanks around it, moments as numbers. */
function settled(value: unknown, name = ''): unknown {
  if (typeof value === 'string') return name.endsWith('At') ? Date.parse(value) : value.trim()
  if (Array.isArray(value)) {
    const items = value.map((item) => settled(item))
    const key = (item: unknown) => String(Object(item).id ?? Object(item).personId)
    const areRows = items.length > 0 && items.every((item) => /^[a-z]+_/.test(key(item)))
    return areRows ? items.sort((a, b) => (key(a) < key(b) ? -1 : 1)) : items
  }
  if (typeof value !== 'object' || value === null) return value
  const fields = Object.entries(value).filter(([field]) => field !== 'exportedAt' && field !== 'leftOut')
  return Object.fromEntries(fields.map(([field, inner]) => [field, settled(inner, field)]))
}

test('a document with arbitrary faults founds the site it describes, or nothing, and says why', {
  timeout: 120_000,
}, async () => {
  const service = await aService()
  const answers = new Map<number, number>()
  let run = 0
  let sites = 0
  await fc.assert(
    fc.asyncProperty(changes, async (made) => {
      run += 1
      const document = aSiteDocument(`r${run}`)
      const siteId = SiteId.parse(document.site.id)
      // A third of all members are rates; changes shall come to the other rows as well.
      if (run % 4 > 0) document.rateSet = null
      for (const one of made) one(document)
      const text = bodyText(document)
      const answer = await post(service, text)
      answers.set(answer.statusCode, (answers.get(answer.statusCode) ?? 0) + 1)
      const body = answer.json()
      if (answer.statusCode === 201) {
        sites += 1
        const exported = await service.get(`${answer.headers.location}/export`).expect(200)
        expect(settled(exported.body)).toMatchObject(Object(settled(JSON.parse(text))))
      } else {
        expect([409, 422], `${answer.statusCode}: ${answer.body}`).toContain(answer.statusCode)
        expect(body.errors.length).toBeGreaterThan(0)
        for (const { at, message } of body.errors) {
          expect(at).toMatch(/^(\/|$)/)
          expect(message).toBeTruthy()
        }
        expect(await service.store.planningVersion(siteId)).toBeNull()
        expect((await service.store.recordedState(siteId)).size).toBe(0)
      }
      expect(await siteCount(service)).toBe(sites)
    }),
    { seed: 20261125, numRuns: 300 },
  )
  // Otherwise the half that matters was not looked at.
  expect(answers.get(201)).toBeGreaterThan(30)
  expect(answers.get(422)).toBeGreaterThan(100)
})
