/** Sixteen clients at once on a small hall with a few gaps that all of them want, through the real service. */
import path from 'node:path'
import { describe, expect, onTestFinished, test } from 'vitest'
import { z } from 'zod'
import { SiteId } from '../../src/domain/ids.ts'
import { EARLIEST_AT, Instant, LATEST_AT } from '../../src/domain/instant.ts'
import type { AuditEntry, Page, Store } from '../../src/store/store.ts'
import type { Decider } from '../../src/worker/decider.ts'
import { NOW } from '../api/a-service.ts'
import { aFolder } from '../store/a-database-file.ts'
import { aClient, type Client } from './a-client.ts'
import { aContestedHall, type ContestedHall } from './a-contested-hall.ts'
import { aServiceOnFile, type ServiceOnFile } from './a-service-on-file.ts'
import { type Attempt, contest } from './contest.ts'
import { explained, slugOf } from './explained.ts'
import { type Decided, recordingDecider } from './recording-decider.ts'
import { verified } from './verified.ts'

const ATTEMPTS = 5_000

/** It takes about 40 s on two idle cores; others may be at work on them too. */
const PATIENCE = 300_000

async function aService(file: string, around?: (decider: Decider) => Decider): Promise<ServiceOnFile> {
  const service = await aServiceOnFile(file, around)
  onTestFinished(() => service.stop())
  return service
}

async function everything(store: Store, siteId: SiteId) {
  const always = { fromAt: Instant.parse(EARLIEST_AT), toAt: Instant.parse(LATEST_AT) }
  const snapshot = await store.load(siteId, always, NOW)
  if (!snapshot) throw new Error('the site is gone')
  return snapshot
}

async function auditOf(store: Store, siteId: SiteId): Promise<AuditEntry[]> {
  const entries: AuditEntry[] = []
  let after: string | null = null
  do {
    const page: Page<AuditEntry> = await store.audit(siteId, { limit: 200, after })
    entries.push(...page.items)
    after = page.nextAfter
  } while (after !== null)
  return entries
}

const ListPage = z.object({
  items: z.array(z.looseObject({ id: z.string(), title: z.string(), status: z.string(), version: z.int() })),
  nextCursor: z.string().nullable(),
})
type Listed = z.infer<typeof ListPage>['items'][number]

/** Every booking of the hall, cancelled ones too, as the service lists them. */
async function bookingsListed(client: Client, { path: site }: ContestedHall): Promise<Listed[]> {
  const items: Listed[] = []
  let cursor: string | null = ''
  while (cursor !== null) {
    const after: string = cursor === '' ? '' : `&cursor=${encodeURIComponent(cursor)}`
    const { text } = await client.ask({ method: 'GET', path: `${site}/bookings?limit=200${after}` })
    const page = ListPage.parse(JSON.parse(text))
    items.push(...page.items)
    cursor = page.nextCursor
  }
  return items
}

const Written = z.object({ booking: z.looseObject({ id: z.string(), title: z.string(), version: z.int() }) })

/** What the answers alone say of each booking: its versions in order, and the title and the end that came last. */
function bookingsAcknowledged(attempts: readonly Attempt[]): Map<string, Listed[]> {
  const versions = new Map<string, Listed[]>()
  for (const { kind, answered } of attempts) {
    const isBooking = kind === 'book' || kind === 'change' || kind === 'cancel' || kind === 'repeat'
    const isReplayed = answered.headers['idempotent-replayed'] === 'true'
    if (!isBooking || answered.status >= 400 || isReplayed) continue
    const written = Written.safeParse(JSON.parse(answered.text))
    if (!written.success) continue
    const booking = ListPage.shape.items.element.parse(written.data.booking)
    versions.set(booking.id, [...(versions.get(booking.id) ?? []), booking])
  }
  for (const list of versions.values()) list.sort((a, b) => a.version - b.version)
  return versions
}

/** How often each kind of attempt got each answer. */
function counted(attempts: readonly Attempt[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>()
  for (const attempt of attempts) {
    const what = `${attempt.kind} ${attempt.answered.status} ${slugOf(attempt) ?? ''}`.trim()
    counts.set(what, (counts.get(what) ?? 0) + 1)
  }
  return counts
}

async function fight(services: number, attempts: number, seed: number) {
  const file = path.join(aFolder(), 'hall.sqlite')
  const decisions = new Map<string, Decided[]>()
  const places: ServiceOnFile[] = []
  for (let index = 0; index < services; index += 1)
    places.push(await aService(file, (decider) => recordingDecider(decider, decisions)))
  const { url, store } = places[0]!
  const client = aClient(url)
  const hall = await aContestedHall(client)
  const siteId = SiteId.parse(hall.siteId)
  const start = await everything(store, siteId)
  const before = (await auditOf(store, siteId)).length
  const done = await contest(places, hall, siteId, { clients: 16, attempts, seed })
  const entries = (await auditOf(store, siteId)).slice(before)
  return { file, hall, client, start, done, entries, decisions, last: await everything(store, siteId) }
}

describe('sixteen clients who want the same gaps of one hall', () => {
  test(
    'get 5,000 answers that one order of writes explains, and what was acknowledged is there, once',
    async () => {
      const { file, hall, client, start, done, entries, decisions, last } = await fight(
        1,
        ATTEMPTS,
        20_261_125,
      )
      expect(done).toHaveLength(ATTEMPTS)

      // Sixteen writers never fill the line.
      expect(done.filter(({ answered }) => answered.status >= 500)).toEqual([])

      const acknowledged = bookingsAcknowledged(done)
      for (const [id, versions] of acknowledged)
        expect([id, ...versions.map(({ version }) => version)]).toEqual([
          id,
          ...versions.map((_, k) => k + 1),
        ])
      const standing = [...acknowledged.values()].map((versions) => versions.at(-1)!)
      const byId = (a: Listed, b: Listed) => (a.id < b.id ? -1 : 1)
      expect((await bookingsListed(client, hall)).sort(byId)).toEqual(standing.sort(byId))

      const explanation = explained(start, entries, done, decisions)
      expect(explanation.unexplained).toEqual([])
      expect(explanation.decidedAgain.writes).toBe(entries.length)
      expect(explanation.decidedAgain.refusals).toBeGreaterThan(500)
      expect(explanation.last).toEqual(last)
      expect(await verified(file, NOW)).toEqual([])

      // Worth something only if each answer was met often.
      const counts = counted(done)
      expect(counts.get('book 201') ?? 0).toBeGreaterThan(200)
      expect(counts.get('book 409 does-not-fit') ?? 0).toBeGreaterThan(200)
      expect(counts.get('repeat 201') ?? 0).toBeGreaterThan(50)
      expect(counts.get('repeat 409 does-not-fit') ?? 0).toBeGreaterThan(50)
      expect(counts.get('reuse 422 idempotency-key-reused') ?? 0).toBeGreaterThan(20)
      expect(counts.get('change 200') ?? 0).toBeGreaterThan(100)
      expect(counts.get('change 412 version-mismatch') ?? 0).toBeGreaterThan(50)
      expect(counts.get('cancel 200') ?? 0).toBeGreaterThan(200)
      expect(counts.get('cancel 409 already-cancelled') ?? 0).toBeGreaterThan(20)
      expect(counts.get('crew 200') ?? 0).toBeGreaterThan(20)
      expect(counts.get('close 201') ?? 0).toBeGreaterThan(10)
      expect(counts.get('reopen 200') ?? 0).toBeGreaterThan(10)
    },
    PATIENCE,
  )

  test(
    'are told the truth by two services on one file too',
    async () => {
      const { file, start, done, entries, decisions, last } = await fight(2, 600, 20_261_126)
      expect(done.filter(({ answered }) => answered.status >= 500)).toEqual([])
      const explanation = explained(start, entries, done, decisions)
      expect(explanation.unexplained).toEqual([])
      expect(explanation.last).toEqual(last)
      expect(await verified(file, NOW)).toEqual([])
    },
    PATIENCE,
  )
})

describe('a change of a booking that another service cancels meanwhile', () => {
  test(
    'is answered by what has become of the booking',
    async () => {
      const file = path.join(aFolder(), 'hall.sqlite')
      const other = aClient((await aService(file)).url)
      let meanwhile = async () => {}
      const { url } = await aService(file, (decider) => ({
        ...recordingDecider(decider, new Map()),
        decide: async (request) => {
          await meanwhile()
          return decider.decide(request)
        },
      }))
      const client = aClient(url)
      const hall = await aContestedHall(client)
      const times = { startsAt: '2026-12-04T10:00', endsAt: '2026-12-04T11:00' }
      const body = { title: 'Choir', ...hall.layouts[0], headcount: 3, ...times }
      const booked = await client.ask({ method: 'POST', path: `${hall.path}/bookings`, body })
      const booking = `${hall.path}/bookings/${Written.parse(JSON.parse(booked.text)).booking.id}`
      meanwhile = async () => {
        meanwhile = async () => {}
        expect((await other.ask({ method: 'DELETE', path: booking })).status).toBe(200)
      }
      const change = {
        method: 'PATCH',
        path: booking,
        body: { headcount: 4 },
        headers: { 'if-match': '*' },
      } as const
      const { status, text } = await client.ask(change)
      expect({ status, ...JSON.parse(text) }).toMatchObject({
        status: 409,
        type: '/problems/already-cancelled',
      })
    },
    PATIENCE,
  )
})

/** How many writers of one site may wait. */
const WAITING_MOST = 64

describe('when more writers come than may wait', () => {
  test(
    'those past the line are told to come back, all others are answered, and so is whoever comes back',
    async () => {
      const file = path.join(aFolder(), 'hall.sqlite')
      let gate = Promise.resolve()
      let open = () => {}
      const { url } = await aService(file, (decider) => ({
        decide: async (request) => {
          await gate
          return decider.decide(request)
        },
        estimate: (request) => decider.estimate(request),
        replan: (request) => decider.replan(request),
        aroundTurn: (request) => decider.aroundTurn(request),
        isReady: () => decider.isReady(),
        close: () => decider.close(),
      }))
      const hall = await aContestedHall(aClient(url))
      gate = new Promise((resolve) => {
        open = resolve
      })
      const minutes = Array.from({ length: WAITING_MOST + 6 }, (_, index) => index)
      const ask = async (minute: number) => {
        const client = aClient(url)
        const two = (number: number) => String(number).padStart(2, '0')
        const startsAt = `2026-12-04T${two(9 + Math.floor(minute / 12))}:${two((minute % 12) * 5)}`
        const body = {
          title: `At ${minute}`,
          ...hall.layouts[0],
          headcount: 3,
          startsAt,
          endsAt: '2026-12-04T18:00',
        }
        const headers = { 'idempotency-key': `key-${minute}` }
        const answered = await client.ask({ method: 'POST', path: `${hall.path}/bookings`, body, headers })
        client.close()
        return { minute, ...answered }
      }
      const turnedAway: number[] = []
      const asking = minutes.map(async (minute) => {
        const answered = await ask(minute)
        if (answered.status === 503) {
          expect(answered.headers['retry-after']).toBe('1')
          turnedAway.push(minute)
          if (turnedAway.length === minutes.length - WAITING_MOST) open()
        }
        return answered
      })
      const answers = await Promise.all(asking)
      expect(turnedAway).toHaveLength(minutes.length - WAITING_MOST)
      for (const { status } of answers) expect([201, 409, 503]).toContain(status)
      for (const minute of turnedAway) expect([201, 409]).toContain((await ask(minute)).status)
      expect(await verified(file, NOW)).toEqual([])
    },
    PATIENCE,
  )
})
