/** The program as it ships: started, asked, stopped, killed and started again. */
import { spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdtempSync, rmSync } from 'node:fs'
import http from 'node:http'
import os from 'node:os'
import path from 'node:path'
import Database from 'better-sqlite3'
import { describe, expect, onTestFinished, test } from 'vitest'
import { aStartedService, firstAccountOf, root } from './a-started-service.ts'

const aFile = () => {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'turnwright-file-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  // In a folder that is not there yet, as on a fresh clone.
  return path.join(folder, 'data', 'hall.sqlite')
}
const json = async (url: string) => (await fetch(url)).json()
const bookings = '/v1/sites/site_harrow-lane/bookings'
const ask = (url: string, day: number) =>
  fetch(url + bookings, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({
      title: `Meeting ${day}`,
      roomId: 'room_long-south',
      layoutId: 'layout_long-south-meeting',
      headcount: 12,
      startsAt: `2033-03-${String(day).padStart(2, '0')}T18:00`,
      endsAt: `2033-03-${String(day).padStart(2, '0')}T19:00`,
    }),
  })

const program = path.join(root, 'dist', 'src', 'main.js')
/** Once the service has said "continue" it has the head of the request, and waits for the body. */
const half = { 'content-type': 'application/json', expect: '100-continue' }

/** 0 also while the file, or its tables, are not there yet. */
function bookingsIn(file: string): number {
  if (!existsSync(file)) return 0
  const raw = new Database(file, { readonly: true })
  try {
    return Number(raw.prepare('SELECT count(*) FROM booking').pluck().get())
  } catch {
    return 0
  } finally {
    raw.close()
  }
}

describe('the service', () => {
  test('says that it is alive and ready, stops when told to, and finds everything again', async () => {
    const DATABASE_FILE = aFile()
    const first = await aStartedService({ DATABASE_FILE })
    expect((await fetch(`${first.url}/healthz`)).status).toBe(200)
    expect(await json(`${first.url}/readyz`)).toEqual({ ready: true, database: true, workers: true })
    const { booking } = (await (await ask(first.url, 1)).json()) as { booking: { id: string } }
    expect(await first.stop()).toBe(0)

    const second = await aStartedService({ DATABASE_FILE })
    expect(await json(`${second.url}${bookings}/${booking.id}`)).toMatchObject({ id: booking.id })
    // The demo is loaded into an empty database only.
    expect(second.output()).not.toContain('Refused while loading')
    expect(await second.stop()).toBe(0)
  })

  test('has every booking it has answered yes to, also when it is killed while it works', async () => {
    const DATABASE_FILE = aFile()
    const first = await aStartedService({ DATABASE_FILE })
    const acknowledged: string[] = []
    const asking = Array.from({ length: 28 }, async (_, index) => {
      const answer = await ask(first.url, index + 1).catch(() => null)
      if (answer?.status !== 201) return
      const { booking } = (await answer.json()) as { booking: { id: string } }
      acknowledged.push(booking.id)
      if (acknowledged.length === 5) first.process.kill('SIGKILL')
    })
    await Promise.allSettled(asking)
    expect(acknowledged.length).toBeGreaterThanOrEqual(5)

    const second = await aStartedService({ DATABASE_FILE })
    for (const id of acknowledged) {
      const found = await fetch(`${second.url}${bookings}/${id}`)
      expect(found.status).toBe(200)
      // Nothing is half-written: a booking has its turn, and the turn its plan.
      const { before } = (await json(`${second.url}${bookings}/${id}/decision`)) as {
        before: { turnId: string }
      }
      const turn = await json(`${second.url}/v1/sites/site_harrow-lane/turns/${before.turnId}`)
      expect(turn).toMatchObject({ bookingId: id, status: 'ready' })
    }
    expect(await second.stop()).toBe(0)
  })

  test('answers what is under way when it is told to stop, and does not wait for connections that are kept', async () => {
    const service = await aStartedService({ DEMO: 'off' })
    const keeper = await firstAccountOf(service)
    const agent = new http.Agent({ keepAlive: true })
    onTestFinished(() => agent.destroy())
    const body = JSON.stringify({ name: 'Alder Row', zone: 'America/Chicago' })
    const asking = http.request(`${service.url}/v1/sites`, {
      agent,
      method: 'POST',
      headers: { ...half, ...keeper, 'content-length': Buffer.byteLength(body) },
    })
    const answered = once(asking, 'response')
    asking.write(body.slice(0, 10))
    await once(asking, 'continue')
    const stopped = service.stop()
    await service.says('Stopping')
    asking.end(body.slice(10))
    const [answer] = (await answered) as [http.IncomingMessage]
    answer.resume()
    expect(answer.statusCode).toBe(201)
    expect(answer.headers.connection).toBe('close')
    expect(await stopped).toBe(0)
  })

  test('stops at once when it is told a second time', async () => {
    const service = await aStartedService({ DEMO: 'off' })
    const keeper = await firstAccountOf(service)
    const asking = http.request(`${service.url}/v1/sites`, {
      method: 'POST',
      headers: { ...half, ...keeper, 'content-length': 100 },
    })
    asking.on('error', () => {})
    asking.write('{')
    await once(asking, 'continue')
    const stopped = service.stop()
    await service.says('Stopping')
    // What comes within a second is the same press of Ctrl+C, told twice.
    service.process.kill('SIGTERM')
    await new Promise((resolve) => setTimeout(resolve, 1_200))
    expect(service.process.exitCode).toBeNull()
    service.process.kill('SIGTERM')
    expect(await stopped).toBe(1)
    expect(service.output()).toContain('Stopped at once.')
  })

  test('loads the rest of the demo when it was killed while it loaded it', async () => {
    const idsAt = async (url: string) => {
      const { items } = (await json(`${url}${bookings}`)) as { items: { id: string }[] }
      return items.map(({ id }) => id)
    }
    const whole = await aStartedService()
    const expected = await idsAt(whole.url)
    expect(await whole.stop()).toBe(0)

    const DATABASE_FILE = aFile()
    const killed = spawn(process.execPath, [program], { env: { ...process.env, DATABASE_FILE, PORT: '0' } })
    const ended = once(killed, 'exit')
    // It may be faster than this looks; then there is nothing left to load, and that must be seen too.
    while (bookingsIn(DATABASE_FILE) === 0) await new Promise((resolve) => setTimeout(resolve, 5))
    killed.kill('SIGKILL')
    await ended

    const second = await aStartedService({ DATABASE_FILE })
    expect(await idsAt(second.url)).toEqual(expected)
    expect(await second.stop()).toBe(0)
  })

  test('says so when the port is taken', async () => {
    const first = await aStartedService()
    const second = spawnSync(process.execPath, [program], {
      env: { ...process.env, DATABASE_FILE: aFile(), PORT: new URL(first.url).port, LOG_LEVEL: 'silent' },
      encoding: 'utf8',
    })
    expect(second.status).toBe(1)
    expect(second.stderr).toBe(
      'The port is taken: stop what listens there, or set PORT to another (0: any free one).\n',
    )
    expect(await first.stop()).toBe(0)
  })

  test.each([
    [{ HOST: '0.0.0.0' }, /HOST .*PUBLIC_URL is not set/s],
    [{ PORT: 'http' }, /PORT .*whole number/s],
    [{ DEMO: 'maybe' }, /DEMO .*on or off/s],
    [{ DATABASE_FILE: path.join(root, 'package.json') }, /is not a database/],
    [
      { DATABASE_FILE: path.join(root, 'package.json', 'sub', 'x.sqlite') },
      /a part of it is a file and no folder/,
    ],
    [{ DATABASE_FILE: ':memory:' }, /DATABASE_FILE .*not :memory:/],
    [{ DATABASE_FILE: root }, /cannot be opened. See that it is a file/],
  ])('does not start with %o, and says why in one message', (settings, message) => {
    const run = spawnSync(process.execPath, [program], {
      env: { ...process.env, DATABASE_FILE: aFile(), ...settings },
      encoding: 'utf8',
    })
    expect(run.status).toBe(1)
    expect(run.stderr).toMatch(message)
    expect(run.stderr).not.toMatch(/\n\s+at /)
    expect(run.stderr.trim()).not.toContain('\n')
  })

  test
    .skipIf(process.platform === 'win32')
    .each(['/dev/null', '/dev/full', '/proc/none/x.sqlite', '/proc/none.sqlite', '/proc/version'])(
    'does not take %s for a database, and says so in one line',
    (DATABASE_FILE) => {
      const run = spawnSync(process.execPath, [program], {
        env: { ...process.env, DATABASE_FILE },
        encoding: 'utf8',
        timeout: 20_000,
      })
      expect(run.status).toBe(1)
      expect(run.stderr).toMatch(/^[^\n]*(cannot be (opened|made)|cannot be read or written)[^\n]*\.\n$/)
    },
  )
})
