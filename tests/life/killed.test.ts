/** The program as it ships, killed without warning again and again while several clients write. */
import { once } from 'node:events'
import { rmSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { Instant } from '../../src/domain/instant.ts'
import { seededRandom } from '../../src/scheduler/turn/seeded-random.ts'
import { aStartedService, firstAccountOf, type StartedService } from '../a-started-service.ts'
import { aFolder } from '../store/a-database-file.ts'
import { type Asked, aClient, type Client } from './a-client.ts'
import { Diary } from './a-diary.ts'
import { verified } from './verified.ts'

const ROUNDS = 10
const CLIENTS = 4
const SITE = '/v1/sites/site_harrow-lane'
const now = () => Instant.parse(Date.now())

/** Of one client: in a room at days and hours of its own, so that each can say what must be there. */
interface Writer {
  readonly index: number
  readonly diary: Diary
  readonly random: () => number
  /** How many bookings it has asked for. */
  asked: number
}

const rooms = ['long-south', 'garden'] as const
const layouts = { 'long-south': ['meeting', 'open'], garden: ['meeting', 'banquet'] } as const
const DAYS_EACH = 180
/** Every other booking is among those of the demo: turned for from another one's layout, put back, judged after a start. */
const NEAR_FROM_DAYS = 2
const NEAR_DAYS = 12
const nearHours = ['09', '11', '14', '17'] as const
/** So long a room is empty before it is put back. */
const RETURN_HOME_AFTER_SECONDS = 6 * 3600
const dateAfterToday = (days: number) => new Date(now() + days * 86_400_000).toISOString().slice(0, 10)

function nextTimes({ index, asked }: Writer) {
  if (asked % 2 === 0)
    return {
      date: dateAfterToday(NEAR_FROM_DAYS + ((asked / 2) % NEAR_DAYS)),
      hour: nearHours[index] ?? '19',
    }
  const day = Date.UTC(2033, 0, 1 + index * DAYS_EACH + (asked % DAYS_EACH))
  return { date: new Date(day).toISOString().slice(0, 10), hour: '18' }
}

function nextAsked(writer: Writer): Asked {
  const { index, diary, random } = writer
  const oneOf = <Thing>(things: readonly Thing[]): Thing | undefined =>
    things[Math.floor(random() * things.length)]
  const ifMatch = (version: number) => ({ 'if-match': `"${version}"` })
  const standing = diary.written('bookings').filter(({ row }) => row.status !== 'CANCELLED')
  const chance = random()
  const booking = oneOf(standing.slice(-6))
  if (booking && chance < 0.3) {
    const { version } = booking.row
    const [hour, end] = [String(booking.row.startsAt).slice(0, 13), String(booking.row.endsAt).slice(0, 13)]
    const moved = { startsAt: `${hour}:15`, endsAt: `${end}:15` }
    const body = { title: `Changed ${index}-${version}`, ...(chance < 0.15 ? moved : {}) }
    return { method: 'PATCH', path: booking.path, body, headers: ifMatch(version) }
  }
  if (booking && chance < 0.4)
    return { method: 'DELETE', path: booking.path, headers: ifMatch(booking.row.version) }
  const person = oneOf(diary.written('people'))
  if (person && chance < 0.5) {
    const body = { name: `Robin ${index}-${person.row.version}` }
    return { method: 'PATCH', path: person.path, body, headers: ifMatch(person.row.version) }
  }
  writer.asked += 1
  const name = `${index}-${writer.asked}`
  const headers = { 'idempotency-key': name }
  if (chance > 0.95)
    return { method: 'POST', path: `${SITE}/people`, body: { name: `Robin ${name}`, adult: true }, headers }
  const room = rooms[index % 2 === 0 ? 0 : 1]
  const { date, hour } = nextTimes(writer)
  const layout = layouts[room][writer.asked % 4 < 2 ? 0 : 1]
  const body = {
    title: `Meeting ${name}`,
    roomId: `room_${room}`,
    layoutId: `layout_${room}-${layout}`,
    headcount: 10,
    startsAt: `${date}T${hour}:00`,
    endsAt: `${date}T${Number(hour) + 1}:00`,
  }
  return { method: 'POST', path: `${SITE}/bookings`, body, headers }
}

/** All write at once until the service is killed, so long after so many answers. @returns how many were acknowledged */
async function writeUntilKilled(
  { url, process: child, folder }: StartedService,
  writers: readonly Writer[],
  {
    answers,
    milliseconds,
    keeper,
  }: {
    readonly answers: number
    readonly milliseconds: number
    readonly keeper: Record<string, string>
  },
): Promise<number> {
  const ended = once(child, 'exit')
  let [answered, acknowledged] = [0, 0]
  const write = async (writer: Writer) => {
    const client = aClient(url, keeper)
    for (;;) {
      const answer = await writer.diary.ask(client, nextAsked(writer)).catch(() => null)
      // Cut off: that is what is looked for, but only once it is killed.
      expect(answer !== null || child.killed).toBe(true)
      if (answer === null) break
      expect([200, 201, 409]).toContain(answer.status)
      if (answer.status < 300) acknowledged += 1
      answered += 1
      if (answered === answers) setTimeout(() => child.kill('SIGKILL'), milliseconds)
    }
    client.close()
  }
  await Promise.all(writers.map(write))
  await ended
  rmSync(folder, { recursive: true, force: true })
  return acknowledged
}

const ListPage = z.object({ items: z.array(z.object({ id: z.string() })), nextCursor: z.string().nullable() })

/** Those of the demo are not asked for by anybody here. */
async function idsListed(client: Client): Promise<string[]> {
  const ids: string[] = []
  let cursor = ''
  for (;;) {
    const asked = `${SITE}/bookings?from=${dateAfterToday(-7)}T00:00&limit=100${cursor}`
    const page = ListPage.parse(JSON.parse((await client.ask({ method: 'GET', path: asked })).text))
    ids.push(...page.items.map(({ id }) => id).filter((id) => !id.startsWith('booking_demo-')))
    if (page.nextCursor === null) return ids.sort()
    cursor = `&cursor=${encodeURIComponent(page.nextCursor)}`
  }
}

describe('a service that is killed ten times while four clients write', () => {
  test('comes back by itself each time, with everything it has acknowledged and nothing half-written', async () => {
    const DATABASE_FILE = path.join(aFolder(), 'hall.sqlite')
    const random = seededRandom(20_261_125)
    const writers = Array.from(
      { length: CLIENTS },
      (_, index): Writer => ({
        index,
        diary: new Diary(),
        random: seededRandom(index),
        asked: 0,
      }),
    )
    let service = await aStartedService({ DATABASE_FILE })
    const keeper = await firstAccountOf(service)
    const manager = aClient(service.url, keeper)
    const policy = { returnHomeAfterSeconds: RETURN_HOME_AFTER_SECONDS }
    expect((await manager.ask({ method: 'POST', path: `${SITE}/policies`, body: policy })).status).toBe(201)
    manager.close()
    let acknowledged = 0
    for (let round = 1; round <= ROUNDS; round += 1) {
      const moment = {
        keeper,
        answers: 4 + Math.floor(random() * 24),
        milliseconds: Math.floor(random() * 25),
      }
      acknowledged += await writeUntilKilled(service, writers, moment)
      expect(await verified(DATABASE_FILE, now())).toEqual([])

      service = await aStartedService({ DATABASE_FILE })
      const client = aClient(service.url, keeper)
      for (const { diary } of writers) expect(await diary.lost(client)).toEqual([])
      const known = writers.flatMap(({ diary }) => diary.written('bookings').map(({ row }) => row.id))
      expect(await idsListed(client)).toEqual(known.sort())
      client.close()
    }
    expect(acknowledged).toBeGreaterThan(100)
    const written = writers.flatMap(({ diary }) => diary.written('bookings'))
    const near = written.filter(({ row }) => String(row.startsAt) < dateAfterToday(60))
    expect(near.length).toBeGreaterThan(15)
    expect(written.length - near.length).toBeGreaterThan(15)
    expect(await service.stop()).toBe(0)
    expect(await verified(DATABASE_FILE, now())).toEqual([])
  }, 600_000)
})
