/** The program as it ships: started, asked, stopped, killed and started again. */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { describe, expect, onTestFinished, test } from 'vitest'
import { aStartedService, root } from './a-started-service.ts'

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

  test('says so when the port is taken', async () => {
    const first = await aStartedService()
    const second = spawnSync(process.execPath, [path.join(root, 'dist', 'src', 'main.js')], {
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
    [{ HOST: '0.0.0.0' }, /HOST .*no accounts yet/s],
    [{ PORT: 'http' }, /PORT .*whole number/s],
    [{ DEMO: 'maybe' }, /DEMO .*on or off/s],
    [{ DATABASE_FILE: path.join(root, 'package.json') }, /is not a database/],
  ])('does not start with %o, and says why in one message', (settings, message) => {
    const run = spawnSync(process.execPath, [path.join(root, 'dist', 'src', 'main.js')], {
      env: { ...process.env, DATABASE_FILE: aFile(), ...settings },
      encoding: 'utf8',
    })
    expect(run.status).toBe(1)
    expect(run.stderr).toMatch(message)
    expect(run.stderr).not.toMatch(/\n\s+at /)
  })
})
