/** A hall that is backed up while it is booked, lost, and restored: with the service as it ships. */
import { spawnSync } from 'node:child_process'
import { once } from 'node:events'
import { readFileSync, rmSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { expect, onTestFinished, test } from 'vitest'
import { Instant } from '../../src/domain/instant.ts'
import { aStartedService, root, type StartedService } from '../a-started-service.ts'
import { verified } from '../life/verified.ts'
import { aFolder } from '../store/a-database-file.ts'
import { ran, running } from './a-command.ts'
import { bookingsOf, bytesBeside, namesBeside } from './two-states.ts'

const bookings = '/v1/sites/site_harrow-lane/bookings'
const now = () => Instant.parse(Date.now())
const dateOf = (day: number) => new Date(Date.UTC(2033, 0, 1 + day)).toISOString().slice(0, 10)

/** Asks for a meeting on each day in turn, as many at a time as there are rooms, until told to stop. */
function writers(url: string) {
  const acknowledged: string[] = []
  let isStopped = false
  let tell: (() => void) | null = null
  const write = async (room: string, layout: string) => {
    for (let day = 0; !isStopped; day += 1) {
      const answer = await fetch(url + bookings, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({
          title: `Meeting ${day}`,
          roomId: room,
          layoutId: layout,
          headcount: 10,
          startsAt: `${dateOf(day)}T18:00`,
          endsAt: `${dateOf(day)}T19:00`,
        }),
      })
      expect(answer.status).toBe(201)
      const { booking } = (await answer.json()) as { booking: { id: string } }
      acknowledged.push(booking.id)
      tell?.()
    }
  }
  const writing = Promise.all([
    write('room_long-south', 'layout_long-south-meeting'),
    write('room_garden', 'layout_garden-meeting'),
  ])
  return {
    acknowledged: (): readonly string[] => [...acknowledged],
    /** Resolves when so many more than now are acknowledged; rejects when a writer fails. */
    more: (count: number): Promise<unknown> => {
      const wanted = acknowledged.length + count
      const reached = new Promise<void>((resolve) => {
        tell = () => {
          if (acknowledged.length >= wanted) resolve()
        }
      })
      return Promise.race([reached, writing])
    },
    stop: () => {
      isStopped = true
      return writing
    },
  }
}

async function found({ url }: StartedService, ids: readonly string[]): Promise<readonly string[]> {
  const statuses = await Promise.all(ids.map(async (id) => (await fetch(`${url}${bookings}/${id}`)).status))
  return ids.filter((_, index) => statuses[index] === 200)
}

test('what was acknowledged before a backup began is there when it is restored, whoever wrote meanwhile', async () => {
  const DATABASE_FILE = path.join(aFolder(), 'hall.sqlite')
  const file = path.join(aFolder(), 'monday.sqlite')
  const first = await aStartedService({ DATABASE_FILE })
  onTestFinished(() => {
    first.process.kill('SIGKILL')
    rmSync(first.folder, { recursive: true, force: true })
  })
  const writing = writers(first.url)
  await writing.more(6)
  const before = writing.acknowledged()
  const backup = running('backup', [file], { DATABASE_FILE, before: 'pause-before-pages.mjs' })
  await backup.says('about to copy')
  // It has its moment by now, and nobody has to wait for it: what is asked from here on is not in it.
  await writing.more(6)
  backup.process.stdin?.write('\n')
  expect(await backup.ended()).toMatchObject({ status: 0, stderr: '' })
  await writing.stop()
  const after = writing.acknowledged()
  expect(await found(first, after)).toEqual(after)
  const held = bookingsOf(file)
  expect(held).toEqual(expect.arrayContaining([...before]))
  const missed = after.filter((id) => !held?.includes(id))
  expect(missed.length).toBeGreaterThan(0)
  expect(missed.filter((id) => before.includes(id))).toEqual([])
  expect(await verified(file, now())).toEqual([])

  const bytes = bytesBeside(DATABASE_FILE)
  const whileRunning = ran('restore', [file], { DATABASE_FILE })
  expect(whileRunning).toMatchObject({ status: 2, stdout: '' })
  expect(whileRunning.stderr).toContain(`${DATABASE_FILE} is in use: a service runs on it`)
  expect([...bytesBeside(DATABASE_FILE).keys()]).toEqual([...bytes.keys()])
  expect(await found(first, after)).toEqual(after)

  // Killed, it can take nothing back; and the database is lost.
  const ended = once(first.process, 'exit')
  first.process.kill('SIGKILL')
  await ended
  writeFileSync(DATABASE_FILE, readFileSync(DATABASE_FILE).fill('x', 0, 50_000))
  writeFileSync(`${DATABASE_FILE}-wal`, '')
  expect(ran('restore', [file], { DATABASE_FILE })).toMatchObject({ status: 0, stderr: '' })
  expect(namesBeside(DATABASE_FILE)).not.toContain('hall.sqlite-wal')

  const second = await aStartedService({ DATABASE_FILE })
  expect(await found(second, after)).toEqual(after.filter((id) => !missed.includes(id)))
  expect(await second.stop()).toBe(0)
  expect(await verified(DATABASE_FILE, now())).toEqual([])
}, 60_000)

test('a second service on the same database is refused at its start, until the first has stopped', async () => {
  const DATABASE_FILE = path.join(aFolder(), 'hall.sqlite')
  const settings = { DATABASE_FILE, DEMO: 'off' }
  const first = await aStartedService(settings)
  const second = spawnSync(process.execPath, [path.join(root, 'dist', 'src', 'main.js')], {
    env: { ...process.env, ...settings, PORT: '0' },
    encoding: 'utf8',
  })
  expect(second).toMatchObject({
    status: 1,
    stdout: '',
    stderr: `${DATABASE_FILE} is in use: a service runs on it, or a backup is being restored into it. Stop that first, or set DATABASE_FILE to another file.\n`,
  })
  expect((await fetch(`${first.url}/readyz`)).status).toBe(200)
  expect(await first.stop()).toBe(0)
  const third = await aStartedService(settings)
  expect(await third.stop()).toBe(0)
}, 60_000)
